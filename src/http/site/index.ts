/** Every page, mounted by the app. */
import { Hono } from "hono";
import type { AppEnv } from "../bindings.js";
import { documents } from "./documents.js";
import { intake } from "./intake.js";
import { jobs } from "./jobs.js";
import { models } from "./models.js";
import { rateBook } from "./rateBook.js";
import { settings } from "./settings.js";

export const site = new Hono<AppEnv>();
for (const part of [documents, intake, jobs, models, rateBook, settings]) site.route("/", part);
