/** The unit square of a picture laid into a box, turned as Exif 2.32 says (tag Orientation, 1 to 8): a PDF matrix (ISO 32000-1, 8.3.4). */
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
