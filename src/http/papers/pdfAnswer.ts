/** A PDF as an answer, under a file name of plain letters. It is downloaded, so that it never takes the place of the page one is on. */
import type { Context } from "hono";
import type { Warning } from "../../estimating/sheet.js";

export function pdfAnswer(
  c: Context,
  { bytes, warnings }: { readonly bytes: Uint8Array; readonly warnings: readonly Warning[] },
  name: string,
) {
  return c.body(bytes as Uint8Array<ArrayBuffer>, 200, {
    "content-type": "application/pdf",
    "content-disposition": `attachment; filename="${name.replaceAll(/[^\w.-]+/g, "-")}.pdf"`,
    // Such as characters the fonts lack; JSON, percent-encoded.
    ...(warnings.length > 0 && { "ohmwright-warnings": encodeURIComponent(JSON.stringify(warnings)).slice(0, 4000) }),
  });
}
