import type { Context } from "hono";
import { CodesPage } from "../../pages/staff/setUp.js";
import type { AppEnv } from "../bindings.js";
import { bareAnswer, lookOf } from "./look.js";

/** New recovery codes, told this once. */
export const showCodes = (c: Context<AppEnv>, codes: { name: string; codes: readonly string[]; next: string }) =>
  bareAnswer(c, <CodesPage look={lookOf(c)} {...codes} />);
