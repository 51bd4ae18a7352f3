/** Undoes the filters of PNG rows (ISO/IEC 15948, clause 9). `step`: bytes a pixel. Undefined for a filter there is none of. */
export function unfilter(rows: Uint8Array, width: number, step: number): Uint8Array | undefined {
  const height = rows.length / (width + 1);
  const out = new Uint8Array(height * width);
  for (let row = 0; row < height; row += 1) {
    const from = row * (width + 1);
    const to = row * width;
    const filter = rows[from]!;
    if (filter > 4) return undefined;
    for (let at = 0; at < width; at += 1) {
      const left = at < step ? 0 : out[to + at - step]!;
      const up = row === 0 ? 0 : out[to + at - width]!;
      const corner = row === 0 || at < step ? 0 : out[to + at - width - step]!;
      out[to + at] = rows[from + 1 + at]! + [0, left, up, (left + up) >> 1, nearest(left, up, corner)][filter]!;
    }
  }
  return out;
}

/** The one of the three that lies nearest to left + up - corner. */
function nearest(left: number, up: number, corner: number): number {
  const guess = left + up - corner;
  const [byLeft, byUp, byCorner] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - corner)];
  if (byLeft <= byUp && byLeft <= byCorner) return left;
  return byUp <= byCorner ? up : corner;
}
