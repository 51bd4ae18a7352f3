/** A teardown map drawn: nodes from left to right as they come off. The table beside it says the same. */
import type { TeardownMap } from "../../../estimating/input.js";
import { listed } from "../../../wording/list.js";
import { drawingOf, type MapDrawing, type Node } from "./drawing.js";

/** Letters of a line that a node has room for. */
const LETTERS = 19;

export const MapGraph = ({ map, unknown }: { map: TeardownMap; unknown?: ReadonlySet<string> }) => {
  const drawing = drawingOf(map, unknown);
  const { width, height } = drawing;
  return (
    <figure class="map-graph" id="graph">
      <section class="scroll" tabindex={0} aria-label="Drawing of the teardown map">
        <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-labelledby="graph-title graph-desc">
          <title id="graph-title">What must come off before what</title>
          <desc id="graph-desc">{described(drawing)}</desc>
          <defs>
            {["off", "back", "ring"].map((kind) => (
              <marker
                id={`head-${kind}`}
                viewBox="0 0 8 8"
                refX="7"
                refY="4"
                markerWidth="8"
                markerHeight="8"
                markerUnits="userSpaceOnUse"
                orient="auto"
              >
                <path class={`map-head map-head-${kind}`} d="M0 0L8 4L0 8Z" />
              </marker>
            ))}
          </defs>
          {drawing.joined.map((box) => (
            <rect class="map-joined" {...box} rx="8" />
          ))}
          {drawing.arrows.map(({ is, path, inRing }) => (
            <path
              class={`map-arrow ${inRing ? "map-ring" : `map-${is}`}`}
              d={path}
              marker-end={`url(#head-${inRing ? "ring" : is})`}
            />
          ))}
          {drawing.nodes.map((node) => (
            <Drawn node={node} />
          ))}
        </svg>
      </section>
      <Legend drawing={drawing} />
    </figure>
  );
};

const Drawn = ({ node }: { node: Node }) => {
  const { x, y, width, height, name, inRing, unknown } = node;
  const lines = twoLines(name, LETTERS);
  const first = y + (lines.length > 1 ? 18 : 26);
  return (
    <g class={`map-node${inRing ? " map-node-ring" : ""}${unknown ? " map-node-unknown" : ""}`}>
      <title>{name}</title>
      <rect x={x} y={y} width={width} height={height} rx="4" />
      {lines.map((line, at) => (
        <text x={x + 10} y={first + at * 15}>
          {line}
        </text>
      ))}
      <text x={x + 10} y={y + height - 9} class="map-place">
        {unknown ? "not on the map" : placeText(node)}
      </text>
    </g>
  );
};

const placeText = ({ off, back, inRing }: Node): string =>
  [off ? `off ${off}` : inRing ? "waits in a ring" : "", back ? `back ${back}` : ""].filter(Boolean).join(" · ") ||
  "no order yet";

const Legend = ({ drawing: { arrows, joined, thinned } }: { drawing: MapDrawing }) => (
  <figcaption class="hint map-legend">
    <span>
      <Key class="map-off" head="off" /> comes off first
    </span>
    {arrows.some(({ is }) => is === "back") ? (
      <span>
        <Key class="map-back" head="back" /> goes back first
      </span>
    ) : null}
    {arrows.some(({ inRing }) => inRing) ? (
      <span>
        <Key class="map-ring" head="ring" /> wait for one another: no order is possible
      </span>
    ) : null}
    {joined.length > 0 ? (
      <span>
        <svg width="26" height="14" aria-hidden="true">
          <rect class="map-joined" x="1" y="1" width="24" height="12" rx="4" />
        </svg>{" "}
        come out together
      </span>
    ) : null}
    {thinned ? <span>Arrows that follow from others are left out.</span> : null}
  </figcaption>
);

const Key = ({ class: kind, head }: { class: string; head: string }) => (
  <svg width="34" height="10" aria-hidden="true">
    <path class={`map-arrow ${kind}`} d="M0 5H32" marker-end={`url(#head-${head})`} />
  </svg>
);

function described({ nodes, arrows }: MapDrawing): string {
  const name = (id: string) => nodes.find((node) => node.id === id)?.name ?? id;
  const order = nodes.filter(({ off }) => off !== undefined).sort((a, b) => a.off! - b.off!);
  const rings = arrows.filter(({ inRing }) => inRing).map(({ from, to }) => `${name(from)} before ${name(to)}`);
  const said = [
    order.length > 0 ? `They come off in this order: ${listed(order.map((node) => node.name))}.` : "No order is possible yet.",
    rings.length > 0 ? `These wait for one another: ${rings.join("; ")}.` : "",
  ];
  return said.filter(Boolean).join(" ");
}

/** A name on two lines at most, broken between words where that is possible; what is too long ends in an ellipsis. */
export function twoLines(name: string, letters: number): readonly string[] {
  const words = name.trim().split(/\s+/);
  const lines: string[] = [""];
  for (const word of words) {
    const longer = `${lines.at(-1)} ${word}`.trim();
    if (longer.length <= letters || lines.at(-1) === "") lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  const shown = lines.length > 2 ? [lines[0]!, lines.slice(1).join(" ")] : lines;
  return shown.map((line) => (line.length > letters ? `${line.slice(0, letters - 1).trimEnd()}…` : line));
}
