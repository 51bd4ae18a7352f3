import type { Words } from "../english/index.js";

export const adjustments: Words["adjustments"] = {
  names: { discount: "Nachlass", sundries: "Kleinmaterial", freight: "Versandkosten", rush: "Eilzuschlag" },
  of: (base) => `von ${base}`,
};
