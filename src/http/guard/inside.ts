/**
 * Whether a host is one that only this machine or the network behind it reaches (RFC 1122, 1918, 3927, 6598, 4193, 4291, 6052; from
 * memory). What the shop sends goes there only where whoever runs it named the host.
 */
const NAMES = /(^|\.)(localhost|local|internal|home\.arpa)$/;

/** `host` as a URL has it: figures of any writing are four numbers by then, and IPv6 stands in brackets. */
export function isInside(host: string): boolean {
  const name = host.toLowerCase().replaceAll(/^\[|\]$|\.$/g, "");
  if (NAMES.test(name)) return true;
  const [, high, low] = /^(?:::ffff:|64:ff9b::)([0-9a-f]{1,4}):([0-9a-f]{1,4})$/.exec(name) ?? [];
  if (high !== undefined && low !== undefined) return isInside(dotted(Number.parseInt(high, 16), Number.parseInt(low, 16)));
  const four = /^(?:::ffff:)?(\d{1,3})\.(\d{1,3})\.(\d{1,3})\.\d{1,3}$/.exec(name);
  if (four) return insideFour(Number(four[1]), Number(four[2]), Number(four[3]));
  // ::/96, ::1 in it; fc00::/7; fe80::/10 and the old fec0::/10; multicast; 6to4 and translated, which carry an IPv4 address.
  return (
    name.includes(":") && (/^::?[0-9a-f]{0,4}(:[0-9a-f]{1,4})?$/.test(name) || /^(f[cd]|fe[89a-f]|ff|2002:|::ffff:0:)/.test(name))
  );
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

/** Why nothing is sent there, or undefined. `resolve`: the addresses a name leads to, where that can be asked. */
export async function insideFault(
  url: string,
  named: readonly string[],
  resolve?: (host: string) => Promise<readonly string[]>,
): Promise<string | undefined> {
  const { hostname, host } = new URL(url);
  if (named.includes(hostname) || named.includes(host)) return undefined;
  const leadsTo = isInside(hostname) ? [hostname] : resolve ? await resolve(hostname).catch(() => undefined) : [];
  // Called all the same, it would be looked up again, by then perhaps to an inside address.
  if (!leadsTo) return "its name cannot be looked up";
  return leadsTo.some(isInside)
    ? "it stands on this machine or the network behind it, which whoever runs the shop has to allow (OHMWRIGHT_HOOK_HOSTS)"
    : undefined;
}

/** As the setting names them, with commas between. */
export const hostsIn = (setting: string): readonly string[] =>
  setting
    .split(",")
    .map((host) => host.trim().toLowerCase())
    .filter(Boolean);
