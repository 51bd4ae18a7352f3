import { Missing, shape } from "../type/shape.js";
import type { ChartBlock, Scale } from "./block.js";
import { setText, widthOf } from "./setText.js";
import { gap, type Mark, move, type PathMark, type Strip } from "./strip.js";
import { COLOUR, STYLE, type Style } from "./style.js";
import type { Tag } from "./tag.js";

const HEIGHT = 160;
/** Room around the field: names of the scales and of the upright line, and the labels of the ticks. */
const ABOVE = 30;
const BELOW = 34;
const AFTER = 14;
const LABEL_GAP = 6;
const DOT = 4.4;
const DOT_LABEL_DROP = 6;
const CURVE = 1.4;
const HAIRLINE = 0.5;
const BOLD_LABEL: Style = { ...STYLE.small, weight: "bold", colour: COLOUR.ink };
const CAUTION_LABEL: Style = { ...STYLE.small, weight: "bold", colour: COLOUR.caution };

/** A chart is one picture with one description: its labels are no text of their own. */
export function setChart(
  { alternative, across, up, line, dots, upright }: ChartBlock,
  width: number,
  parent: Tag,
  missing: Missing,
): Strip[] {
  const tag = parent.add("Figure", { alternative });
  const left = LABEL_GAP + Math.max(...up.ticks.map(({ label }) => long(label, STYLE.small)));
  const field = { left, right: width - AFTER, top: ABOVE, bottom: HEIGHT - BELOW };
  const x = (at: number): number => place(at, across, field.left, field.right);
  const y = (at: number): number => place(at, up, field.bottom, field.top);
  const write = (text: string, style: Style, at: number, middle: number, hold: number): Mark[] =>
    labelled(text, style, at - hold * long(text, style), middle, tag, missing);
  const stroke = (points: PathMark["points"], style: Pick<PathMark, "line" | "colour" | "dashed">): Mark => ({
    is: "path",
    x: 0,
    y: 0,
    points,
    tag,
    ...style,
  });
  const marks: Mark[] = [
    ...up.ticks.flatMap(({ at, label }): Mark[] => [
      stroke(
        [
          [field.left, y(at)],
          [field.right, y(at)],
        ],
        { line: HAIRLINE, colour: COLOUR.rule },
      ),
      ...write(label, STYLE.small, field.left - LABEL_GAP, y(at), 1),
    ]),
    ...across.ticks.flatMap(({ at, label }): Mark[] => [
      stroke(
        [
          [x(at), field.bottom],
          [x(at), field.bottom + 3],
        ],
        { line: HAIRLINE, colour: COLOUR.muted },
      ),
      ...write(label, STYLE.small, x(at), field.bottom + 10, 0.5),
    ]),
    ...write(up.title, STYLE.small, 0, 6, 0),
    ...write(across.title, STYLE.small, field.right, HEIGHT - 9, 1),
    stroke(
      [
        [x(upright.at), field.top - 4],
        [x(upright.at), field.bottom],
      ],
      { line: 1, colour: COLOUR.caution, dashed: true },
    ),
    // Where the upright line would run through the name of a dot, it makes way.
    ...dots.map(
      ({ across: at, up: share, label }): Mark => ({
        is: "fill",
        x: x(at) + DOT,
        y: y(share) + DOT_LABEL_DROP - BOLD_LABEL.size / 2,
        width: long(label, BOLD_LABEL) + 2,
        height: BOLD_LABEL.size,
        colour: COLOUR.white,
        tag,
      }),
    ),
    ...write(upright.label, CAUTION_LABEL, x(upright.at), field.top - 11, holdOf(upright.label, x(upright.at), width)),
    stroke(
      line.map((point) => [x(point.across), y(point.up)] as const),
      { line: CURVE, colour: COLOUR.accent },
    ),
    ...dots.flatMap(({ across: at, up: share, label }): Mark[] => [
      { is: "fill", x: x(at) - DOT / 2, y: y(share) - DOT / 2, width: DOT, height: DOT, colour: COLOUR.ink, tag },
      ...write(label, BOLD_LABEL, x(at) + DOT + 1, y(share) + DOT_LABEL_DROP, 0),
    ]),
  ];
  return [gap(8), { before: 0, height: HEIGHT, keep: false, marks }];
}

const place = (at: number, { from, to }: Scale, first: number, last: number): number =>
  first + ((at - from) / (to - from)) * (last - first);

const long = (text: string, { size, weight }: Style): number => widthOf(shape(text, weight, new Missing()), size);

/** How much of a label stands left of its place, so that it stays on the paper. */
function holdOf(label: string, at: number, width: number): number {
  const half = long(label, CAUTION_LABEL) / 2;
  return at + half > width ? 1 : at - half < 0 ? 0 : 0.5;
}

/** One line of text whose middle is at the height given. */
function labelled(text: string, style: Style, x: number, middle: number, tag: Tag, missing: Missing): Mark[] {
  const [strip] = setText(text, style, Number.POSITIVE_INFINITY, tag, missing);
  move(strip!.marks, x, middle - style.leading / 2);
  return [...strip!.marks];
}
