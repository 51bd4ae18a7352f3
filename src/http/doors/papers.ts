/** What acts print. */
import type { Papers } from "../../acts/act.js";
import { finalAccountPdf } from "../../documents/finalAccountPdf.js";
import type { Database } from "../../records/database.js";
import { logoOf } from "./logo.js";

export const papersOf = (db: Database): Papers => ({
  finalAccount: async (account, agreed, corrected) => {
    const { paperwork } = agreed.input;
    const logo = paperwork && (await logoOf(db, paperwork));
    return (await finalAccountPdf(account, agreed, { corrected, logo })).bytes;
  },
});
