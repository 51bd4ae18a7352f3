/** The owner's side: everything here is reached with a link and its cookie, without the shop's secret. A GET changes nothing. */
import { type Context, Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { type EstimateView, OWNER_PATHS, type OwnerFault } from "../../pages/owner/view.js";
import { ANSWERS_GIVEN, type AnswerGiven, agreedTo, answersOf } from "../../records/agreements.js";
import { estimates } from "../../records/estimates.js";
import type { Issue } from "../../records/issues.js";
import { questions } from "../../records/questions.js";
import { type AnswerSent, answering, answerRefused } from "../answering.js";
import type { AppEnv } from "../bindings.js";
import { printedEstimate } from "../printed.js";
import { ANSWERS, type AnswerName } from "../problems/catalogue.js";
import { type RefuseWith, refuse, wantsPage } from "../problems/refuse.js";
import { takeEntry } from "./cookie.js";
import { entry } from "./entry.js";
import { type Extras, estimateView, knownChoice, pricedView } from "./estimateView.js";
import { choiceIn, fieldsOf } from "./fields.js";
import { showView } from "./show.js";
import { estimateOf, issueSeen, type Visit, visiting } from "./visit.js";

export const owner = new Hono<AppEnv>();
owner.route("/", entry);

const MOST_NAME = 200;
const MOST_QUESTION = 2000;
const NO_NAME = "Type your name: it is put on record with your answer.";
const SAID: Readonly<Record<string, string>> = {
  answer: "Your answer is on record. Keep the receipt below.",
  question: "Your question went to the shop. The reply will stand here.",
};

owner.get(OWNER_PATHS.estimate, (c) =>
  within(c, async (visit) => {
    const issue = seen(c, visit);
    if (!issue) return refuse(c, "not found", { detail: "This link opens no such revision." });
    const say = SAID[c.req.query("said") ?? ""];
    return showView(c, await estimateView(c, visit, issue, undefined, say === undefined ? {} : { say }));
  }),
);

owner.get(OWNER_PATHS.pdf, (c) =>
  within(c, async (visit) => {
    const issue = seen(c, visit);
    if (!issue) return refuse(c, "not found", { detail: "This link opens no such revision." });
    const estimate = await estimateOf(c, issue);
    return printedEstimate(c, estimate, estimate.sheet!);
  }),
);

/** What a set comes to. Nothing is kept. */
owner.post(OWNER_PATHS.price, (c) =>
  withForm(c, async (visit, issue, fields) => {
    const estimate = await estimateOf(c, issue);
    const input = await estimates.inputOf(c.var.db, estimate);
    const choice = knownChoice(input, estimate.sheet!, choiceIn(fields));
    if (wantsPage(c)) return showView(c, await estimateView(c, visit, issue, choice, typedIn(fields)));
    const earlier = agreedTo(await answersOf(c.var.db, issue.jobId), issue.revision)?.revision;
    const tongue = { locale: input.paperwork?.locale ?? visit.settings.locale, currency: input.currency };
    return c.json(pricedView(input, choice, earlier, tongue), 200);
  }),
);

/** An answer once more, before it is sent. Nothing is kept. */
owner.post(OWNER_PATHS.check, (c) =>
  withForm(c, async (visit, issue, fields) => {
    const faults = textFaults("name", (fields.get("name") ?? "").trim(), MOST_NAME, NO_NAME);
    if (faults.length > 0) return wrong(c, visit, issue, fields, "input refused", {}, faults);
    const estimate = await estimateOf(c, issue);
    const choice = knownChoice(await estimates.inputOf(c.var.db, estimate), estimate.sheet!, choiceIn(fields));
    const view = await estimateView(c, visit, issue, choice, typedIn(fields));
    const declines = fields.get("answer") === "declined";
    // Otherwise the page says why no answer is taken.
    if (view.state.is !== "open" && !(declines && view.state.is === "lapsed")) return showView(c, view, 409);
    return showView(c, { ...view, checking: declines ? "declined" : choice.struck.length > 0 ? "part agreed" : "agreed" });
  }),
);

owner.post(OWNER_PATHS.agreement, (c) =>
  withForm(c, async (visit, issue, fields) => {
    const read = answerIn(fields);
    if ("wrong" in read) return wrong(c, visit, issue, fields, "input refused", {}, read.wrong);
    const sent: AnswerSent = {
      ...read.answer,
      estimateId: issue.id,
      contentHash: issue.contentHash,
      channel: "page",
      link: visit.link,
      address: c.var.address || undefined,
      agent: c.req.header("user-agent")?.slice(0, 500),
    };
    const outcome = await answering(c, uuidv7(), sent);
    if (outcome.is === "recorded") {
      if (wantsPage(c)) return c.redirect(`${OWNER_PATHS.estimate}?revision=${issue.revision}&said=answer`, 303);
      return c.json((await estimateView(c, visit, issue, undefined)).answer, outcome.again ? 200 : 201);
    }
    const currency = (await estimateOf(c, issue)).input.currency;
    const [name, said] = answerRefused(outcome, { locale: visit.settings.locale, currency });
    const field = outcome.is === "price differs" ? "amount" : "answer";
    return wrong(c, visit, issue, fields, name, said, [
      { field, text: said.detail ?? said.errors?.[0]?.detail ?? ANSWERS[name].title },
    ]);
  }),
);

owner.post(OWNER_PATHS.question, (c) =>
  withForm(c, async (visit, issue, fields) => {
    const text = (fields.get("text") ?? "").replaceAll("\r\n", "\n").trim();
    const faults = textFaults("text", text, MOST_QUESTION, "Write your question first.");
    if (faults.length > 0) return wrong(c, visit, issue, fields, "input refused", {}, faults);
    const asked = { estimateId: issue.id, link: visit.link, text };
    const outcome = await questions.ask(c.var.db, uuidv7(), asked, c.var.clock().toISOString());
    if (outcome === "too many") {
      const { title } = ANSWERS["too many questions"];
      return wrong(c, visit, issue, fields, "too many questions", {}, [{ field: "text", text: title }]);
    }
    if (wantsPage(c)) return c.redirect(`${OWNER_PATHS.estimate}?revision=${issue.revision}&said=question`, 303);
    return c.json((await estimateView(c, visit, issue, undefined)).questions, 201);
  }),
);

/** Only for whoever holds a live link. */
async function within(c: Context<AppEnv>, inside: (visit: Visit) => Promise<Response>): Promise<Response> {
  const at = await visiting(c);
  if (at.is === "in") return inside(at.visit);
  if (at.is === "gone") {
    takeEntry(c);
    return wantsPage(c) ? showView(c, at.view, 410) : refuse(c, "link dead");
  }
  return wantsPage(c) ? c.redirect(OWNER_PATHS.home, 303) : refuse(c, "owner link wanted");
}

const withForm = (c: Context<AppEnv>, inside: (visit: Visit, issue: Issue, fields: URLSearchParams) => Promise<Response>) =>
  within(c, async (visit) => {
    const fields = await fieldsOf(c);
    const issue = issueSeen(visit, { hash: fields.get("hash") ?? "" });
    return issue ? inside(visit, issue, fields) : refuse(c, "content differs");
  });

function seen(c: Context<AppEnv>, visit: Visit): Issue | undefined {
  const revision = c.req.query("revision");
  return issueSeen(visit, revision === undefined ? {} : { revision: Number(revision) });
}

/** Problems for programs; for people the page again, with all they typed and what to put right. */
async function wrong(
  c: Context<AppEnv>,
  visit: Visit,
  issue: Issue,
  fields: URLSearchParams,
  name: AnswerName,
  said: RefuseWith,
  faults: readonly OwnerFault[],
): Promise<Response> {
  if (!wantsPage(c)) {
    const errors = faults.map(({ field, text }) => ({ pointer: `/${field}`, name, detail: text }));
    return refuse(c, name, { ...(name === "input refused" && { errors }), detail: faults[0]!.text, ...withoutRecord(said) });
  }
  const estimate = await estimateOf(c, issue);
  const choice = knownChoice(await estimates.inputOf(c.var.db, estimate), estimate.sheet!, choiceIn(fields));
  const { status } = ANSWERS[name];
  const view = await estimateView(c, visit, issue, choice, { ...typedIn(fields), wrong: faults });
  return showView(c, view, status as 409 | 422 | 429);
}

/** The record itself holds what is the shop's: the address of an answer, for one. */
const withoutRecord = ({ current: _, ...said }: RefuseWith): RefuseWith => said;

const typedIn = (fields: URLSearchParams): Extras & { typed: NonNullable<EstimateView["typed"]> } => ({
  typed: {
    ...(fields.has("name") && { name: fields.get("name")!.slice(0, MOST_NAME) }),
    ...(fields.has("text") && { question: fields.get("text")!.slice(0, MOST_QUESTION) }),
  },
});

type AnswerRead = Pick<AnswerSent, "answer" | "by" | "shown" | "chosen" | "struck">;

function answerIn(fields: URLSearchParams): { readonly answer: AnswerRead } | { readonly wrong: readonly OwnerFault[] } {
  const [answer, by, amount] = [fields.get("answer"), (fields.get("name") ?? "").trim(), fields.get("amount") ?? ""];
  const known = ANSWERS_GIVEN.find((each) => each === answer);
  const faults: OwnerFault[] = [
    ...(known ? [] : [{ field: "answer" as const, text: "Choose one of the three answers." }]),
    ...textFaults("name", by, MOST_NAME, NO_NAME),
    ...(known === "declined" || /^-?\d{1,15}$/.test(amount)
      ? []
      : [{ field: "amount" as const, text: "The page did not say which price it showed; look at it again, then answer." }]),
  ];
  if (faults.length > 0) return { wrong: faults };
  return {
    answer: { answer: known as AnswerGiven, by, shown: known === "declined" ? undefined : Number(amount), ...choiceIn(fields) },
  };
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what it looks for
const CONTROL = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f]/;

function textFaults(field: "name" | "text", text: string, most: number, empty: string): OwnerFault[] {
  if (text === "") return [{ field, text: empty }];
  if (text.length > most) return [{ field, text: `This has ${text.length} characters; ${most} at most, please.` }];
  return CONTROL.test(text) || (field === "name" && text.includes("\n"))
    ? [{ field, text: "A control character got into this; take it out." }]
    : [];
}
