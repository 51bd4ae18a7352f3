import type { Missing } from "../type/shape.js";
import type { Block } from "./block.js";
import { COLOUR } from "./colour.js";
import { setRuns } from "./setRuns.js";
import { gap, type Strip } from "./strip.js";
import { STYLE } from "./style.js";
import type { Tag } from "./tag.js";
import { webAddress } from "./webAddress.js";

type Link = Extract<Block, { is: "link" }>;

/** An address that is no web address is printed and leads nowhere. */
export function setLink({ before, shown, after, to }: Link, width: number, parent: Tag, missing: Missing): Strip[] {
  const paragraph = parent.add("P");
  const address = webAddress(to);
  const link = address === undefined ? STYLE.small : { ...STYLE.small, colour: COLOUR.accent };
  const runs = [
    { text: before, style: STYLE.small, tag: paragraph.add("Span") },
    { text: shown, style: link, tag: paragraph.add(address === undefined ? "Span" : "Link"), to: address },
    ...(after === "" ? [] : [{ text: after, style: STYLE.small, tag: paragraph.add("Span") }]),
  ];
  return [gap(2), ...setRuns(runs, width, missing)];
}
