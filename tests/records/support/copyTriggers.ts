/** The statements of a migration that keep copies of a table's rows: what a table that is new, or has another column, needs beside. */
import type { Copied } from "../../../src/records/backup/tables.js";
import { bodyOf, cellOf, idOf } from "../../../src/records/rowCopies.js";

/** What no act changes or takes away: the copy stays, whatever is done to the row. */
const STAYS = new Set(["rate_books", "stock_movements", "goods_in_tests", "orders", "order_endings"]);

export function copyTriggers({ table, keys, columns }: Copied): readonly string[] {
  const made = `CREATE TRIGGER \`${table}_row_copied\` AFTER INSERT ON \`${table}\`
BEGIN
	INSERT INTO \`row_copies\` (\`of\`, \`id\`, \`body\`) VALUES ('${table}', ${idOf(keys, "NEW")}, ${bodyOf(columns, "NEW")})
		ON CONFLICT (\`of\`, \`id\`) DO UPDATE SET \`body\` = excluded.\`body\`;
END`;
  if (STAYS.has(table)) return [made];
  const kept = columns.map((column, at) => {
    const { name } = column;
    return `iif(NEW.\`${name}\` IS OLD.\`${name}\`, \`body\` ->> ${at}, ${cellOf(column, "NEW")})`;
  });
  const all = [...keys, ...columns].map(({ name }) => `\`${name}\``).join(", ");
  return [
    made,
    `CREATE TRIGGER \`${table}_copy_moved\` AFTER UPDATE OF ${all} ON \`${table}\`
BEGIN
	UPDATE \`row_copies\` SET \`id\` = ${idOf(keys, "NEW")}, \`body\` = json_array(${kept.join(", ")})
		WHERE \`of\` = '${table}' AND \`id\` = ${idOf(keys, "OLD")} AND json_valid(\`body\`);
END`,
    `CREATE TRIGGER \`${table}_copy_dropped\` AFTER DELETE ON \`${table}\`
BEGIN
	DELETE FROM \`row_copies\` WHERE \`of\` = '${table}' AND \`id\` = ${idOf(keys, "OLD")};
END`,
  ];
}

/** Copies of what is there already. */
export const copyFilled = ({ table, keys, columns }: Copied): string =>
  `INSERT INTO \`row_copies\` (\`of\`, \`id\`, \`body\`) SELECT '${table}', ${idOf(keys, "t")}, ${bodyOf(columns, "t")} FROM \`${table}\` t`;
