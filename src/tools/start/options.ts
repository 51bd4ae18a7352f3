/** What `npm start` was asked for, by its words and the environment. */
import type { BlockList } from "node:net";
import { resolve } from "node:path";
import { parseArgs } from "node:util";
import { opensElsewhere } from "../../http/guard/host.js";
import { hostsIn } from "../../http/guard/inside.js";
import { hopsIn } from "../../http/guard/proxy.js";
import { refuseAddress } from "../../http/guard/secret.js";

const PORT = 4700;
export const HELP = `npm start                     the shop on http://127.0.0.1:${PORT}/, with the demo shop on the first start
npm start -- --empty          a first start without the demo shop
npm start -- --data DIR       where database and photos are kept (OHMWRIGHT_DATA, otherwise ./data)
npm start -- --port N         another port; 0 takes any free one
npm start -- --host ADDRESS   another address than loopback: wants OHMWRIGHT_SECRET, which opens the set-up, and HTTPS in front
npm start -- -h, --help       this
OHMWRIGHT_ORIGIN              where owners reach it, such as https://shop.example: what links on paper begin with;
                              without it no link is made for an address that only this machine opens
OHMWRIGHT_PROXY               the proxies in front that are trusted to say who calls, such as 127.0.0.1 or 10.0.0.0/8,
                              by X-Forwarded-For; several stand with commas between
OHMWRIGHT_HOOK_HOSTS          hosts on this machine or the network behind it that the send hook may call, such as
                              mail.lan, 127.0.0.1; without a secret it may call this machine`;

export interface Start {
  readonly empty: boolean;
  /** Absolute path. */
  readonly folder: string;
  /** 0: any free port. */
  readonly port: number;
  readonly host: string;
  readonly secret: string | undefined;
  readonly origin: string | undefined;
  readonly proxies: BlockList | undefined;
  /** Undefined: as usual. */
  readonly hookHosts: readonly string[] | undefined;
}

export type StartOptions =
  | { readonly is: "help" }
  | { readonly is: "refused"; readonly why: string }
  | { readonly is: "start"; readonly start: Start };

export function readOptions(words: readonly string[], env: NodeJS.ProcessEnv): StartOptions {
  const refused = (why: string) => ({ is: "refused", why }) as const;
  const options = parsed(words);
  if (options instanceof Error) return refused(`${options.message}\n\n${HELP}`);
  if (options.help) return { is: "help" };
  const port = Number(options.port);
  if (!/^\d+$/.test(options.port) || port > 65_535) return refused(`--port is '${options.port}'; give a number from 0 to 65535.`);
  const secret = env.OHMWRIGHT_SECRET || undefined;
  const origin = env.OHMWRIGHT_ORIGIN || undefined;
  if (origin !== undefined && !(/^https?:/.test(origin) && URL.canParse(origin) && new URL(origin).origin === origin))
    return refused(`OHMWRIGHT_ORIGIN is '${origin}'; give scheme and host only, such as https://shop.example`);
  if (origin !== undefined && !opensElsewhere(origin))
    return refused(
      `OHMWRIGHT_ORIGIN is '${origin}', which only this machine opens; give the address that owners reach, or leave it out.`,
    );
  const proxy = env.OHMWRIGHT_PROXY || undefined;
  const proxies = proxy === undefined ? undefined : hopsIn(proxy);
  if (proxy !== undefined && !proxies)
    return refused(`OHMWRIGHT_PROXY is '${proxy}'; give addresses or blocks with commas between, such as 127.0.0.1, 10.0.0.0/8`);
  const { empty, host } = options;
  const refusal = refuseAddress(host, secret);
  if (refusal) return refused(refusal);
  const folder = resolve(options.data ?? env.OHMWRIGHT_DATA ?? "data");
  const hookHosts = env.OHMWRIGHT_HOOK_HOSTS ? hostsIn(env.OHMWRIGHT_HOOK_HOSTS) : undefined;
  return { is: "start", start: { empty, folder, port, host, secret, origin, proxies, hookHosts } };
}

function parsed(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      options: {
        empty: { type: "boolean", default: false },
        data: { type: "string" },
        port: { type: "string", default: String(PORT) },
        host: { type: "string", default: "127.0.0.1" },
        help: { type: "boolean", short: "h", default: false },
      },
    }).values;
  } catch (error) {
    return error as Error;
  }
}
