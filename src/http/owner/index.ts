/** The owner's side: everything here is reached with a link and its cookie, without the shop's secret. A GET changes nothing. */
import { Hono } from "hono";
import { answerByLink } from "../../acts/answerByLink.js";
import { previewed } from "../../acts/answered.js";
import { askQuestion } from "../../acts/askQuestion.js";
import { readForm, typedFrom } from "../../acts/readForm.js";
import { OWNER_PATHS, type OwnerFault } from "../../pages/owner/view.js";
import { closeOuts } from "../../records/closeOuts.js";
import { photos } from "../../records/photos.js";
import type { AppEnv } from "../bindings.js";
import { calendarAnswer } from "../papers/calendarAnswer.js";
import { pdfAnswer } from "../papers/pdfAnswer.js";
import { printedEstimate } from "../papers/printed.js";
import { photoAnswer } from "../photos/answer.js";
import { refuse, wantsPage } from "../problems/refuse.js";
import { keepTyped, typedName } from "./cookie.js";
import { entry } from "./entry.js";
import { estimateView, knownChoice, pricedView } from "./estimateView.js";
import { ownerDoor } from "./ownerDoor.js";
import { showView } from "./show.js";
import { typedIn } from "./typed.js";
import { anew, estimateOf } from "./visit.js";
import { notTaken, priced, seen, withForm, within, wrong } from "./within.js";

export const owner = new Hono<AppEnv>();
owner.route("/", entry);

owner.get(OWNER_PATHS.estimate, (c) =>
  within(c, async (visit) => {
    const issue = seen(c, visit);
    if (!issue) return refuse(c, "not found", { detail: "This link opens no such revision." });
    const said = (["answer", "question", "other"] as const).find((each) => each === c.req.query("said"));
    if (said !== "question") return showView(c, await estimateView(c, visit, issue, undefined, said ? { say: said } : {}));
    // The form as it was when the question was sent.
    const name = typedName(c);
    const asked = { say: said, ...(name !== undefined && { typed: { name } }) };
    const ticked = new URL(c.req.url).searchParams;
    const { language } = estimateOf(visit, issue).input.paperwork ?? {};
    return priced(c, visit, language, ticked, async () =>
      showView(c, await estimateView(c, visit, issue, knownChoice(visit, issue, ticked), asked)),
    );
  }),
);

owner.get(OWNER_PATHS.pdf, (c) =>
  within(c, async (visit) => {
    const issue = seen(c, visit);
    if (!issue) return refuse(c, "not found", { detail: "This link opens no such revision." });
    const estimate = estimateOf(visit, issue);
    return printedEstimate(c, estimate, estimate.sheet);
  }),
);

owner.get(OWNER_PATHS.account, (c) =>
  within(c, async ({ job }) => {
    const bytes = job.closeOut && (await closeOuts.pdf(c.var.db, job.closeOut.id));
    if (!bytes?.length) return refuse(c, "not found", { detail: "There is no final account yet." });
    return pdfAnswer(c, { bytes, warnings: [] }, `final-account-${job.job.number}`);
  }),
);

/** Only what is printed with a revision that the link opens. */
owner.get(OWNER_PATHS.photo, (c) =>
  within(c, async (visit) => {
    const issue = seen(c, visit);
    const shown = (issue ? estimateOf(visit, issue).input : undefined)?.paperwork?.photos?.find(
      ({ id }) => id === c.req.query("id"),
    );
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
    const choice = knownChoice(visit, issue, fields);
    if (wantsPage(c)) return showView(c, await estimateView(c, visit, issue, choice, typedIn(fields)));
    return c.json(pricedView(visit, issue, choice), 200);
  }),
);

/** An answer once more, before it is sent. Nothing is kept. */
owner.post(OWNER_PATHS.check, (c) =>
  withForm(c, async (visit, issue, fields) => {
    const named = readForm(answerByLink.fields.pick({ name: true }), typedFrom(fields), visit.settings);
    if (!named.ok)
      return wrong(c, visit, issue, fields, "input refused", {}, [{ field: "name", text: named.errors.get("name")! }]);
    const choice = knownChoice(visit, issue, fields);
    const view = await estimateView(c, visit, issue, choice, typedIn(fields));
    const declines = fields.get("answer") === "declined";
    const checking = declines ? "declined" : choice.struck.length > 0 ? "part agreed" : "agreed";
    if (view.state.is !== "open" && !(declines && view.state.is === "lapsed")) return showView(c, notTaken(view), 409);
    const asked = previewed(visit.job, { ...choice, estimateId: issue.id, answer: checking });
    if ("refused" in asked) {
      const faults = (asked.refused.errors ?? []).map(({ detail }): OwnerFault => ({ field: "answer", text: detail }));
      return wrong(c, visit, issue, fields, "input refused", {}, faults);
    }
    return showView(c, { ...view, checking });
  }),
);

owner.post(OWNER_PATHS.agreement, (c) =>
  withForm(c, (visit, issue, fields) =>
    ownerDoor(c, answerByLink, visit, issue, fields, {
      amount: "price differs",
      page: async () => {
        const { question } = typedIn(fields).typed;
        // Begun beside the answer, and not sent: too long for an address or a cookie. Sent again, the answer is the one that stands.
        if (question?.trim())
          return showView(
            c,
            await estimateView(c, await anew(c, visit), issue, undefined, { say: "answer", typed: { question } }),
          );
        return c.redirect(`${OWNER_PATHS.estimate}?revision=${issue.revision}&said=answer`, 303);
      },
      told: async ({ again }) => [(await estimateView(c, await anew(c, visit), issue, undefined)).answer, again ? 200 : 201],
    }),
  ),
);

owner.post(OWNER_PATHS.question, (c) =>
  withForm(c, (visit, issue, fields) =>
    ownerDoor(c, askQuestion, visit, issue, fields, {
      // Ticks and name stay as they are, and going back sends nothing again.
      page: () => {
        const { name } = typedIn(fields).typed;
        if (name !== undefined) keepTyped(c, name);
        const { chosen, struck } = knownChoice(visit, issue, fields);
        const still = new URLSearchParams([
          ["revision", String(issue.revision)],
          ["said", "question"],
          ...chosen.map((id) => ["chosen", id]),
          ...struck.map((id) => ["struck", id]),
        ]);
        return c.redirect(`${OWNER_PATHS.estimate}?${still}`, 303);
      },
      told: async () => [(await estimateView(c, await anew(c, visit), issue, undefined)).questions, 201],
    }),
  ),
);
