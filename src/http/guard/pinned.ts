/**
 * Calls out from Node by the very addresses that were looked at: the name is looked up once, in opening the connection, so that one that
 * leads elsewhere a moment later gains nothing. TLS and the Host header keep the name.
 */
import { type LookupAddress, lookup } from "node:dns";
import { type RequestOptions, request } from "node:http";
import { request as requestOverTls } from "node:https";
import { type CallOut, Inside } from "./callOut.js";

type LookUp = (name: string, options: { readonly all: true }, found: Found) => void;
type Found = (error: Error | null, addresses: LookupAddress[]) => void;

export const pinned =
  (ask: LookUp = lookup): CallOut =>
  (url, { headers, body, signal }, mayCall) =>
    new Promise((answered, failed) => {
      const looking: NonNullable<RequestOptions["lookup"]> = (name, { all }, found) =>
        ask(name, { all: true }, (error, addresses) => {
          const [first] = addresses ?? [];
          if (error || !first) return found(error ?? new Error(`${name} leads nowhere`), "");
          if (!addresses.every(({ address }) => mayCall(address))) return found(new Inside(), "");
          return all ? found(null, addresses) : found(null, first.address, first.family);
        });
      const call = new URL(url).protocol === "https:" ? requestOverTls : request;
      // An agent of its own: no connection is kept that an earlier look-up opened.
      const sent = call(url, { method: "POST", headers, signal, agent: false, lookup: looking });
      sent.on("response", (answer) => {
        answered(answer.statusCode ?? 0);
        answer.destroy();
      });
      sent.on("error", failed);
      sent.end(body);
    });
