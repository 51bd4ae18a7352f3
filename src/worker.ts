/** The edge's entry: the same app over libSQL through HTTP. */
import { assets } from "../.built/assetNames.js";
import { createApp } from "./http/app/app.js";
import { rehearse } from "./http/app/rehearse.js";
import { opensElsewhere } from "./http/guard/host.js";
import { hostsIn } from "./http/guard/inside.js";
import { connectWeb } from "./records/connectWeb.js";
import { photoBucket } from "./records/photoBucket.js";

const app = createApp({
  // One per request: what a request of the edge has opened belongs to that request.
  openDatabase: ({ LIBSQL_URL, LIBSQL_AUTH_TOKEN }) => (LIBSQL_URL ? connectWeb(LIBSQL_URL, LIBSQL_AUTH_TOKEN) : undefined),
  openPhotos: ({ PHOTOS }) => (PHOTOS ? photoBucket(PHOTOS) : undefined),
  assets,
  guard: "secret",
  secretOf: ({ OHMWRIGHT_SECRET }) => OHMWRIGHT_SECRET,
  originOf: ({ OHMWRIGHT_ORIGIN: told }) => (told && opensElsewhere(told) ? new URL(told).origin : undefined),
  hookHostsOf: ({ OHMWRIGHT_HOOK_HOSTS = "" }) => hostsIn(OHMWRIGHT_HOOK_HOSTS),
  // Set by the edge itself; a client cannot choose it.
  addressOf: (c) => c.req.header("cf-connecting-ip") ?? "",
});

rehearse();

export default { fetch: app.fetch } satisfies { fetch: typeof app.fetch };
