/** The owner's side: everything here is reached with a link and its cookie, without the shop's secret. A GET changes nothing. */
import { Hono } from "hono";
import { uuidv7 } from "uuidv7";
import { ANSWERS } from "../../acts/refusals.js";
import { OWNER_PATHS } from "../../pages/owner/view.js";
import { agreedTo, answersOf } from "../../records/agreements.js";
import { closeOuts } from "../../records/closeOuts.js";
import { estimates } from "../../records/estimates.js";
import { photos } from "../../records/photos.js";
import { questions } from "../../records/questions.js";
import { type AnswerSent, answering, answerRefused } from "../answering.js";
import type { AppEnv } from "../bindings.js";
import { calendarAnswer } from "../calendarAnswer.js";
import { pdfAnswer } from "../pdfAnswer.js";
import { photoAnswer } from "../photos/answer.js";
import { printedEstimate } from "../printed.js";
import { refuse, wantsPage } from "../problems/refuse.js";
import { answerIn, MOST_NAME, MOST_QUESTION, NO_NAME, textFaults, typedIn } from "./answerForm.js";
import { entry } from "./entry.js";
import { estimateView, knownChoice, pricedView } from "./estimateView.js";
import { choiceIn } from "./fields.js";
import { showView } from "./show.js";
import { estimateOf } from "./visit.js";
import { seen, withForm, within, wrong } from "./within.js";

export const owner = new Hono<AppEnv>();
owner.route("/", entry);

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

owner.get(OWNER_PATHS.account, (c) =>
  within(c, async ({ link, number }) => {
    const closed = await closeOuts.standing(c.var.db, link.jobId);
    const bytes = closed && (await closeOuts.pdf(c.var.db, closed.id));
    if (!bytes?.length) return refuse(c, "not found", { detail: "There is no final account yet." });
    return pdfAnswer(c, { bytes, warnings: [] }, `final-account-${number}`);
  }),
);

/** Only what is printed with a revision that the link opens. */
owner.get(OWNER_PATHS.photo, (c) =>
  within(c, async (visit) => {
    const issue = seen(c, visit);
    const { input } = issue ? await estimateOf(c, issue) : { input: undefined };
    const shown = input?.paperwork?.photos?.find(({ id }) => id === c.req.query("id"));
    const photo = shown && (await photos.find(c.var.db, shown.id));
    const ours = photo && photo.jobId === issue?.jobId && photo.sha256 === shown?.sha256;
    return ours ? photoAnswer(c, photo) : refuse(c, "not found", { detail: "This link opens no such photo." });
  }),
);

owner.get(OWNER_PATHS.calendar, (c) =>
  within(c, ({ link }) => calendarAnswer(c, link.jobId, `${c.var.origin}${OWNER_PATHS.home}`)),
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
