import { expect, it } from "vitest";
import { eventText } from "../../../src/pages/revise/trailPage.js";

const WHO = { revision: 2, by: "Tamsin Oakhollow", person: "Tamsin Oakhollow", answer: "declined", deposit: "£90.38" };

it.each([
  ["draft begun", "Revision 2 was begun as a draft."],
  ["issued", "Revision 2 was issued by Tamsin Oakhollow."],
  ["link made", "A link to the owner's page was made by Tamsin Oakhollow."],
  ["link withdrawn", "A link to the owner's page was withdrawn by Tamsin Oakhollow."],
  ["question asked", "The owner asked a question."],
  ["question answered", "Tamsin Oakhollow replied to a question."],
  ["answered", "Revision 2: declined by Tamsin Oakhollow."],
  ["answer corrected", "The answer to revision 2 was corrected: declined by Tamsin Oakhollow."],
  ["work logged", "Work of Tamsin Oakhollow was logged."],
  ["photo added", "Tamsin Oakhollow added a photo."],
  ["photo removed", "Tamsin Oakhollow took a photo out."],
  ["begun unpaid", "Tamsin Oakhollow let work begin before the deposit of £90.38 was paid."],
  ["limit overridden", "Tamsin Oakhollow let something pass what the owner agreed to."],
  ["something newer", "Something newer."],
])("tells of '%s' in a sentence", (is, text) => {
  expect(eventText(is, WHO)).toBe(text);
});
