/** A spreadsheet as flat OpenDocument XML (ISO/IEC 26300). Formula cells carry no value, so whoever opens it must work them out. */

export interface Formula {
  /** OpenFormula, without the leading '='. */
  readonly formula: string;
}
export type Cell = string | number | Formula;

export interface Table {
  readonly name: string;
  /** The first row of the table. */
  readonly heads: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  /** Not printed when false. */
  readonly printed?: boolean;
}

const OPEN = "urn:oasis:names:tc:opendocument:xmlns";
const SPACES = ["office", "table", "text"].map((space) => `xmlns:${space}="${OPEN}:${space}:1.0"`).join(" ");

const escaped = (text: string) => text.replace(/[&<>"]/g, (sign) => `&#${sign.charCodeAt(0)};`);

function cellXml(cell: Cell): string {
  if (typeof cell === "number") return `<table:table-cell office:value-type="float" office:value="${cell}"/>`;
  if (typeof cell === "object") return `<table:table-cell table:formula="${escaped(`of:=${cell.formula}`)}"/>`;
  if (cell === "") return "<table:table-cell/>";
  return `<table:table-cell office:value-type="string"><text:p>${escaped(cell)}</text:p></table:table-cell>`;
}

const rowXml = (cells: readonly Cell[]) => `<table:table-row>${cells.map(cellXml).join("")}</table:table-row>`;

export function flatOds(tables: readonly Table[]): string {
  const sheets = tables.map(
    ({ name, heads, rows, printed = true }) =>
      `<table:table table:name="${escaped(name)}"${printed ? "" : ' table:print="false"'}>${[heads, ...rows].map(rowXml).join("\n")}</table:table>`,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>
<office:document ${SPACES} xmlns:of="${OPEN}:of:1.2" office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:body><office:spreadsheet>
<table:calculation-settings table:use-regular-expressions="false" table:use-wildcards="false"/>
${sheets.join("\n")}
</office:spreadsheet></office:body>
</office:document>
`;
}
