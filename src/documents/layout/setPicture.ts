import type { Block } from "./block.js";
import type { Strip } from "./strip.js";
import type { Tag } from "./tag.js";

/** A picture at the size it is given. */
export function setPicture(
  { picture, alternative, width, height, turn }: Extract<Block, { is: "picture" }>,
  _width: number,
  parent: Tag,
): Strip[] {
  const tag = parent.add("Figure", { alternative });
  return [{ before: 0, height, keep: true, marks: [{ is: "picture", x: 0, y: 0, width, height, picture, turn, tag }] }];
}
