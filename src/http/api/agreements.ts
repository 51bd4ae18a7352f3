/** Owners' answers as the shop takes them: in person, by telephone, by e-mail. Answers on the owner's page come in at /o. */
import { previewAnswer, recordAnswer } from "../../acts/recordAnswer.js";
import { keptAgreement } from "../../acts/shapes/agreements.js";
import { answersOf } from "../../records/agreements.js";
import { jobs } from "../../records/jobs.js";
import { apiDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";

export const agreements = router();

apiDoor(agreements, recordAnswer, {
  path: "/api/estimates/{id}/agreements",
  tag: "agreements",
  description: "A correction names the record it corrects. The same answer again is the record that stands.",
  on: ({ id }) => ({ estimate: id }),
  refusals: [
    ...(["not found", "estimate not issued", "content differs", "revision superseded", "answered already"] as const),
    ...(["nothing to correct", "job closed"] as const),
  ],
  shown: ({ again: _, ...record }) => record,
  statusOf: ({ again }) => (again ? 200 : 201),
});

apiDoor(agreements, previewAnswer, {
  ...{ path: "/api/estimates/{id}/agreements/preview", tag: "agreements", status: 200 },
  description: "As the owner's page shows it before it is sent. Nothing is kept; a refusal is of the revision as issued",
  example: { answer: "agreed", chosen: [] },
  on: ({ id }) => ({ estimate: id }),
  refusals: ["not found", "estimate not issued", "content differs"],
});

look(agreements, {
  ...{ path: "/api/jobs/{id}/agreements", tag: "agreements", name: "listAgreements", answer: keptAgreement, says: "Answers" },
  title: "Every answer and correction of a job, oldest first",
  none: "There is no such job.",
  all: async (c, { id }) => ((await jobs.find(c.var.db, id)) ? answersOf(c.var.db, id) : undefined),
});
