/** Boards that are counted and not named. */
import type { BoardCount } from "../../estimating/input.js";
import { BOARD_SIZES, MOUNTINGS } from "../../estimating/lists.js";
import type { Draft } from "./draft.js";
import { key } from "./fields.js";
import { count, type Reading } from "./reading.js";

export function readBoards(at: Reading, draft: Draft): readonly BoardCount[] | undefined {
  const boards: BoardCount[] = [];
  for (const size of BOARD_SIZES) {
    for (const mounting of MOUNTINGS) {
      const cell = `boards.${size}.${key(mounting)}`;
      const counted = count(at, cell, draft.boards[size]?.[key(mounting)]);
      if (counted === undefined || counted === 0) continue;
      at.where.set(`/boards/${boards.length}`, cell);
      boards.push({ size, mounting, count: counted });
    }
  }
  return boards.length > 0 ? boards : undefined;
}
