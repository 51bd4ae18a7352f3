/** Every page, mounted by the app. */
import { Hono } from "hono";
import type { AppEnv } from "../bindings.js";
import { answers } from "./answers.js";
import { bench } from "./bench.js";
import { changes } from "./changes.js";
import { closeOut } from "./closeOut.js";
import { documents } from "./documents.js";
import { extraFault } from "./extraFault.js";
import { find } from "./find.js";
import { intake } from "./intake.js";
import { issue } from "./issue.js";
import { jobs } from "./jobs.js";
import { modelEditor } from "./modelEditor.js";
import { modelFile } from "./modelFile.js";
import { models } from "./models.js";
import { ownerLinks } from "./ownerLinks.js";
import { rateBook } from "./rateBook.js";
import { settings } from "./settings.js";
import { trail } from "./trail.js";
import { workLog } from "./workLog.js";

export const site = new Hono<AppEnv>();
const parts = [documents, find, intake, jobs, modelEditor, modelFile, models, rateBook, settings];
const revising = [issue, extraFault, changes, answers, ownerLinks, bench, workLog, closeOut, trail];
for (const part of [...parts, ...revising]) site.route("/", part);
