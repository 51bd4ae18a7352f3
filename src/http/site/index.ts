/** Every page, mounted by the app. */
import { Hono } from "hono";
import type { AppEnv } from "../bindings.js";
import { answers } from "./answers.js";
import { bench } from "./bench.js";
import { catalogue } from "./catalogue.js";
import { changes } from "./changes.js";
import { closeOut } from "./closeOut.js";
import { dataIn } from "./dataIn.js";
import { dataOut } from "./dataOut.js";
import { documents } from "./documents.js";
import { donors } from "./donors.js";
import { exchangeRates } from "./exchangeRates.js";
import { extraFault } from "./extraFault.js";
import { find } from "./find.js";
import { goodsIn } from "./goodsIn.js";
import { handBack } from "./handBack.js";
import { help } from "./help.js";
import { intake } from "./intake.js";
import { issue } from "./issue.js";
import { jobs } from "./jobs.js";
import { lines } from "./lines.js";
import { lookingBack } from "./lookingBack.js";
import { modelEditor } from "./modelEditor.js";
import { modelFile } from "./modelFile.js";
import { models } from "./models.js";
import { offerPages } from "./offers.js";
import { ownerLinks } from "./ownerLinks.js";
import { papers } from "./papers.js";
import { parts as partsToGet } from "./parts.js";
import { payments } from "./payments.js";
import { photos } from "./photos.js";
import { pickList } from "./pickList.js";
import { rateBook } from "./rateBook.js";
import { reference } from "./reference.js";
import { sending } from "./sending.js";
import { settings } from "./settings.js";
import { stock } from "./stock.js";
import { trail } from "./trail.js";
import { withdrawDraft } from "./withdrawDraft.js";
import { withdrawEntry } from "./withdrawEntry.js";
import { workLog } from "./workLog.js";

export const site = new Hono<AppEnv>();
const parts = [
  dataIn,
  dataOut,
  documents,
  find,
  help,
  intake,
  jobs,
  lines,
  lookingBack,
  modelEditor,
  modelFile,
  models,
  rateBook,
  reference,
  sending,
  settings,
];
const revising = [
  issue,
  extraFault,
  changes,
  answers,
  ownerLinks,
  bench,
  workLog,
  withdrawDraft,
  withdrawEntry,
  closeOut,
  handBack,
  payments,
  photos,
  trail,
  papers,
];
const ordering = [partsToGet, goodsIn, stock, catalogue, offerPages, donors, exchangeRates, pickList];
for (const part of [...parts, ...revising, ...ordering]) site.route("/", part);
