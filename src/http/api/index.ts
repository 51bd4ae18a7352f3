/** Every resource, and the document that describes them. */
import type { OpenAPIHono } from "@hono/zod-openapi";
import type { AppEnv } from "../bindings.js";
import { router, utf8 } from "../doors/router.js";
import { rightOf } from "../who.js";
import { accuracy } from "./accuracy.js";
import { agreements } from "./agreements.js";
import { backup } from "./backup.js";
import { bench } from "./bench.js";
import { closeOuts } from "./closeOuts.js";
import { dataOut } from "./dataOut.js";
import { described, describedSchemas, type Operation, withBody, withHeaders } from "./document.js";
import { estimate } from "./estimate.js";
import { estimates } from "./estimates.js";
import { goodsIn } from "./goodsIn.js";
import { imports } from "./imports.js";
import { issue } from "./issue.js";
import { kept } from "./kept.js";
import { ownerLinks } from "./ownerLinks.js";
import { parts } from "./parts.js";
import { photos } from "./photos.js";
import { questions } from "./questions.js";
import { search } from "./search.js";
import { settings } from "./settings.js";
import { staff } from "./staff.js";
import { trail } from "./trail.js";

export const api: OpenAPIHono<AppEnv> = router();
api.use("/api/*", utf8);

for (const part of [estimate, ...kept, estimates, settings, accuracy, search]) api.route("/", part);
for (const part of [issue, agreements, ownerLinks, questions, bench, closeOuts, trail, backup, dataOut, imports])
  api.route("/", part);
for (const part of [parts, goodsIn, staff, photos]) api.route("/", part);

const securitySchemes = {
  bearer: {
    type: "http",
    scheme: "bearer",
    description:
      "A token made under API tokens. Its scopes: read for looking and reckoning, write for changes, admin beside them for what only a manager may. Before anyone has an account: OHMWRIGHT_SECRET, wherever one is set",
  },
  session: {
    type: "apiKey",
    in: "cookie",
    name: "__Host-ohmwright-staff",
    description: "Of someone signed in, given by the sign-in page; ohmwright-staff on loopback",
  },
} as const;

/** Of a bearer, the scopes its token needs: the table's word. */
function security(method: string, path: string) {
  const right = rightOf({ method: method.toUpperCase(), path: path.replaceAll(/\{(\w+)\}/g, ":$1") });
  const scopes = [...(right?.scope ? [right.scope] : []), ...(right?.who === "manager" ? ["admin"] : [])];
  // Nothing is wanted on loopback before anyone has an account.
  return [{ bearer: scopes }, { session: [] }, {}];
}

let document: string | undefined;
/** Made once: it is the same for every request. */
export function openApiDocument(): string {
  document ??= JSON.stringify(made());
  return document;
}

function made() {
  const document = api.getOpenAPI31Document({
    openapi: "3.1.0",
    info: {
      title: "Ohmwright",
      version: "1",
      description: "Written estimates for vintage electronics repair. Money is in integer minor units; problems follow RFC 9457.",
      license: { name: "MIT" },
    },
    servers: [{ url: "/" }],
  });
  const bodies: Record<string, object> = {};
  const paths = Object.entries(document.paths ?? {}).map(([path, methods]) => [
    path,
    Object.fromEntries(
      Object.entries(methods as Record<string, Operation>).map(([method, told]) => [
        method,
        { ...withHeaders(withBody(described(told), bodies)), security: security(method, path) },
      ]),
    ),
  ]);
  const schemas = { ...describedSchemas(document.components?.schemas as never), ...bodies };
  const components = { ...document.components, schemas };
  return { ...document, components, paths: Object.fromEntries(paths), webhooks: undefined };
}

for (const [name, scheme] of Object.entries(securitySchemes))
  api.openAPIRegistry.registerComponent("securitySchemes", name, scheme);

api.get("/openapi.json", (c) => c.body(openApiDocument(), 200, { "content-type": "application/json" }));
