/**
 * Whether a host is one that only this machine or the network behind it reaches (RFC 1122, 1918, 3927, 6598, 4193, 4291, 6052; from
 * memory). What the shop sends goes there only where whoever runs it named the host.
 */
const NAMES = /(^|\.)(localhost|local|internal|home\.arpa)$/;

/** `host` as a URL has it, figures of any writing being four numbers by then; or an address, as a look-up answers it. */
export function isInside(host: string): boolean {
  const name = plainly(host.toLowerCase()).replaceAll(/^\[|\]$|\.$/g, "");
  if (NAMES.test(name)) return true;
  const [, high, low] = /^(?:::ffff:|64:ff9b::)([0-9a-f]{1,4}):([0-9a-f]{1,4})$/.exec(name) ?? [];
  if (high !== undefined && low !== undefined) return isInside(dotted(Number.parseInt(high, 16), Number.parseInt(low, 16)));
  const four = /^(\d{1,3})\.(\d{1,3})\.(\d{1,3})\.\d{1,3}$/.exec(name);
  if (four) return insideFour(Number(four[1]), Number(four[2]), Number(four[3]));
  // ::/96, ::1 in it; fc00::/7; fe80::/10 and the old fec0::/10; multicast; 6to4 and translated, which carry an IPv4 address.
  return (
    name.includes(":") &&
    (/^::?[0-9a-f]{0,4}(:[0-9a-f]{1,4})?$/.test(name) || /^(f[cd]|fe[89a-f]|ff|2002:|64:ff9b:1:|::ffff:0:)/.test(name))
  );
}

/** IPv6 as a URL writes it, without the name of a network card behind it. */
function plainly(host: string): string {
  const bracketed = `http://[${host.replaceAll(/^\[|\]$|%.*$/gs, "")}]/`;
  return host.includes(":") && URL.canParse(bracketed) ? new URL(bracketed).hostname : host;
}

const dotted = (high: number, low: number): string => [high >> 8, high & 255, low >> 8, low & 255].join(".");

const insideFour = (first: number, second: number, third: number): boolean =>
  [0, 10, 127].includes(first) ||
  first >= 224 ||
  (first === 100 && second >= 64 && second < 128) ||
  (first === 169 && second === 254) ||
  (first === 172 && second >= 16 && second < 32) ||
  (first === 192 && (second === 168 || (second === 0 && third === 0))) ||
  (first === 198 && (second === 18 || second === 19));

/** As the setting names them, with commas between. */
export const hostsIn = (setting: string): readonly string[] =>
  setting
    .split(",")
    .map((host) => host.trim().toLowerCase())
    .filter(Boolean);
