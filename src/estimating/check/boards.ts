/** Counted boards: whole counts, and a standard for each size and mounting. */
import type { Book } from "../book.js";
import type { EstimateInput } from "../input.js";
import { LIMITS, type Problem } from "../problems.js";
import { count } from "./figures.js";
import { checkStandard } from "./map.js";
import { pointer } from "./pointer.js";

export function checkBoards({ boards = [] }: EstimateInput, book: Book): Problem[] {
  return boards.flatMap((row, at) => {
    const where = `Boards, ${row.size}, ${row.mounting}`;
    return [
      ...count(row.count, where, pointer("boards", at, "count"), LIMITS.boards),
      ...checkStandard(row, where, pointer("boards", at), book),
    ];
  });
}
