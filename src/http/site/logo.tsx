/** The shop's logo: put on documents, and taken off. */
import { type Context, Hono } from "hono";
import { LogoPage } from "../../pages/shop/logo.js";
import { logos } from "../../records/logos.js";
import { settings as records, type Settings, SHOP, shopSettings } from "../../records/settings.js";
import type { AppEnv } from "../bindings.js";
import { readLogo } from "../logo.js";
import { formWithFiles } from "./form.js";
import { frameFor, pageAnswer } from "./frame.js";

export const logo = new Hono<AppEnv>();

logo.get("/settings/logo", (c) => show(c, c.req.query("saved") === undefined ? {} : { say: "Saved." }));

logo.post("/settings/logo", async (c) => {
  const sent = Object.fromEntries(await formWithFiles(c));
  const at = c.var.clock().toISOString();
  const { logo: _, id: __, version: ___, createdAt: ____, updatedAt: _____, ...rest } = await shopSettings(c.var.db);
  let value: Settings = rest;
  if (sent.intent !== "take off") {
    if (!(sent.file instanceof File) || sent.file.size === 0) return show(c, { wrong: "Logo: choose a file first." });
    const read = await readLogo(new Uint8Array(await sent.file.arrayBuffer()));
    if ("wrong" in read) return show(c, { wrong: read.wrong });
    value = { ...rest, logo: await logos.keep(c.var.db, read, at) };
  }
  const answer = await records.replace(c.var.db, SHOP, Number(sent.version) || 0, value, at);
  return answer.is === "replaced"
    ? c.redirect("/settings/logo?saved", 303)
    : show(c, { wrong: "Someone else saved the settings meanwhile; look at them, then choose the file again." });
});

async function show(c: Context<AppEnv>, { wrong, say }: { readonly wrong?: string; readonly say?: string }) {
  const kept = await shopSettings(c.var.db);
  const found = kept.logo && (await logos.find(c.var.db, kept.logo));
  return pageAnswer(
    c,
    <LogoPage
      frame={frameFor(c, kept.name)}
      version={kept.version}
      errors={new Map(wrong ? [["file", wrong]] : [])}
      {...(say && { say })}
      {...(kept.logo && found && { logo: { id: kept.logo, width: found.width, height: found.height } })}
    />,
    wrong ? 422 : 200,
  );
}
