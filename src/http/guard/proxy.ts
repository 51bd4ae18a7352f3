/** Who the caller is where proxies stand between: the last address that a trusted hop did not come from itself. */
import { BlockList, isIP } from "node:net";
import { plainAddress } from "./place.js";

const family = (address: string) => (isIP(address) === 6 ? "ipv6" : "ipv4");

/** Addresses and blocks such as '127.0.0.1, 10.0.0.0/8, fd00::/8'; undefined where one of them is neither. */
export function hopsIn(setting: string): BlockList | undefined {
  const hops = new BlockList();
  for (const each of setting.split(",").map((text) => text.trim())) {
    const [, address = "", bits] = /^([^/]+)(?:\/(\d{1,3}))?$/.exec(each) ?? [];
    const longest = { 0: -1, 4: 32, 6: 128 }[isIP(address) as 0 | 4 | 6];
    if (Number(bits ?? 0) > longest) return undefined;
    if (bits === undefined) hops.addAddress(address, family(address));
    else hops.addSubnet(address, Number(bits), family(address));
  }
  return hops;
}

/** `peer`: who opened the connection; `forwarded`: X-Forwarded-For, to which each hop adds whom it heard from. */
export function callerBehind(hops: BlockList | undefined, peer: string, forwarded: string | undefined): string {
  let caller = plainAddress(peer);
  if (!hops) return caller;
  for (const named of (forwarded ?? "").split(",").reverse()) {
    if (!hops.check(caller, family(caller))) return caller;
    const next = plainAddress(named.trim());
    // What a hop cannot have written says nothing: the hop itself it is.
    if (isIP(next) === 0) return caller;
    caller = next;
  }
  return caller;
}
