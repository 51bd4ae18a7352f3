/** CSV into the records through the API. */
import { IMPORTS, type ImportName } from "../../acts/importRows.js";
import { importTable } from "../../acts/importTable.js";
import { fileRead } from "../dataIn/table.js";
import { apiDoor } from "../doors/api.js";
import { router } from "../doors/router.js";

export const imports = router();

apiDoor(imports, importTable, {
  ...{ path: "/api/imports/{what}", tag: "shop", status: 200, refusals: [] },
  among: { what: IMPORTS },
  example: { text: "type,name,value\nfilm,Film 470 nF 63 V,470n\n" },
  on: ({ what }) => ({ what: what as ImportName, read: fileRead }),
});
