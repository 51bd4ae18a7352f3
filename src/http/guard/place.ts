/**
 * The place that tries and connections are counted by: an IPv4 address, in whatever form, or the /64 of an IPv6 one, since whoever has one
 * of its addresses has them all (RFC 4291, 2.5.1 and 2.5.5.2).
 */
export function placeOf(address: string): string {
  const plain = plainAddress(address);
  const groups = groupsOf(plain);
  return groups ? `${groups.slice(0, 4).map(hex).join(":")}::/64` : plain;
}

/** An IPv4 caller of a socket that takes both is an IPv4 caller. */
export function plainAddress(address: string): string {
  const groups = groupsOf(address);
  if (groups?.slice(0, 5).some(Boolean) !== false || groups[5] !== 0xffff) return address;
  return groups
    .slice(6)
    .flatMap((group) => [group >> 8, group & 255])
    .join(".");
}

const hex = (group: number): string => group.toString(16);

/** Of IPv6; undefined for what is none. */
function groupsOf(address: string): readonly number[] | undefined {
  const bracketed = `http://[${address.replace(/%.*$/s, "")}]/`;
  if (!address.includes(":") || !URL.canParse(bracketed)) return undefined;
  const [head = [], tail = []] = new URL(bracketed).hostname
    .slice(1, -1)
    .split("::")
    .map((half) => half.split(":").flatMap((group) => (group === "" ? [] : [Number.parseInt(group, 16)])));
  return [...head, ...Array(8 - head.length - tail.length).fill(0), ...tail];
}
