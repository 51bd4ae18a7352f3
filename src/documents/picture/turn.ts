/** How a picture is to be turned to stand upright: Exif 2.32, tag Orientation (0x0112), 1 to 8. It is the one entry of Exif that is kept. */

const TAG = 0x0112;
const SHORT = 3;

/** `segment`: what an APP1 holds. 1, upright as stored, where it says nothing that can be read. */
export function turnIn(segment: Uint8Array): number {
  const view = new DataView(segment.buffer, segment.byteOffset, segment.byteLength);
  if (segment.length < 16 || view.getUint32(0) !== 0x45786966 || view.getUint16(4) !== 0) return 1;
  const order = view.getUint16(6);
  if (order !== 0x4949 && order !== 0x4d4d) return 1;
  const little = order === 0x4949;
  const first = 6 + view.getUint32(10, little);
  if (first + 2 > segment.length) return 1;
  const entries = view.getUint16(first, little);
  for (let entry = 0; entry < entries; entry += 1) {
    const at = first + 2 + entry * 12;
    if (at + 12 > segment.length) return 1;
    if (view.getUint16(at, little) !== TAG || view.getUint16(at + 2, little) !== SHORT) continue;
    const turn = view.getUint16(at + 8, little);
    return turn >= 1 && turn <= 8 ? turn : 1;
  }
  return 1;
}

/** An APP1 that says nothing else. */
export const orientationSegment = (turn: number): Uint8Array =>
  new Uint8Array([
    ...[0xff, 0xe1, 0x00, 0x22, 0x45, 0x78, 0x69, 0x66, 0x00, 0x00],
    ...[0x4d, 0x4d, 0x00, 0x2a, 0x00, 0x00, 0x00, 0x08, 0x00, 0x01],
    ...[0x01, 0x12, 0x00, 0x03, 0x00, 0x00, 0x00, 0x01, 0x00, turn, 0x00, 0x00],
    ...[0x00, 0x00, 0x00, 0x00],
  ]);

/** Width and height change places. */
export const isOnItsSide = (turn: number): boolean => turn >= 5;

/** The unit square of a picture laid into a box: a PDF matrix (ISO 32000-1, 8.3.4). */
export function turned(
  turn: number,
  [x, y, width, height]: readonly [x: number, y: number, width: number, height: number],
): readonly [number, number, number, number, number, number] {
  switch (turn) {
    case 2:
      return [-width, 0, 0, height, x + width, y];
    case 3:
      return [-width, 0, 0, -height, x + width, y + height];
    case 4:
      return [width, 0, 0, -height, x, y + height];
    case 5:
      return [0, -height, -width, 0, x + width, y + height];
    case 6:
      return [0, -height, width, 0, x, y + height];
    case 7:
      return [0, height, width, 0, x, y];
    case 8:
      return [0, height, -width, 0, x + width, y];
    default:
      return [width, 0, 0, height, x, y];
  }
}
