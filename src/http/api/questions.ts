/** What owners asked on their page, and the shop's replies. */
import { replyToQuestion } from "../../acts/replyToQuestion.js";
import { keptQuestion } from "../../acts/shapes/agreements.js";
import { jobs } from "../../records/jobs.js";
import { questions as records } from "../../records/questions.js";
import { apiDoor } from "../doors/api.js";
import { look } from "../doors/look.js";
import { router } from "../doors/router.js";

export const questions = router();

look(questions, {
  ...{ path: "/api/jobs/{id}/questions", tag: "questions", name: "listQuestions", answer: keptQuestion, says: "Questions" },
  title: "What the owner asked, with the replies, oldest first",
  none: "There is no such job.",
  all: async (c, { id }) => ((await jobs.find(c.var.db, id)) ? records.ofJob(c.var.db, id) : undefined),
});

apiDoor(questions, replyToQuestion, {
  path: "/api/questions/{id}/replies",
  tag: "questions",
  description: "The answer is the question with its replies",
  on: ({ id }) => ({ question: id }),
  refusals: ["not found"],
});
