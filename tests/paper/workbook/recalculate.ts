/** Opens a workbook in LibreOffice without a screen and reads back what every cell comes to. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { flatOds, type Table } from "./flatOds.js";

/** CSV filter: semicolons, no quotes but where needed, UTF-8, raw values, every sheet to a file of its own. */
const EVERY_SHEET = "csv:Text - txt - csv (StarCalc):59,34,76,1,,0,false,false,false,false,false,-1";

/** Rows below the heads, by table name. Every cell as text. */
export function recalculate(tables: readonly Table[]): ReadonlyMap<string, readonly (readonly string[])[]> {
  const folder = mkdtempSync(join(tmpdir(), "ohmwright-workbook-"));
  try {
    const file = join(folder, "estimate.fods");
    writeFileSync(file, flatOds(tables));
    const profile = `-env:UserInstallation=${pathToFileURL(join(folder, "profile")).href}`;
    execFileSync("soffice", [profile, "--headless", "--convert-to", EVERY_SHEET, "--outdir", folder, file], { stdio: "pipe" });
    return new Map(
      tables.map(({ name }) => {
        const rows = readFileSync(join(folder, `estimate-${name}.csv`), "utf8")
          .trimEnd()
          .split("\n")
          .slice(1);
        return [name, rows.map((row) => row.split(";").map((cell) => cell.replaceAll('"', "")))] as const;
      }),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
