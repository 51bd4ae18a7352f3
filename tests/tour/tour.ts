/** The tour: one unit of a demo model, from the first page to what its job taught. */
import type { Page } from "playwright-core";
import { field, totalAfter, totalOn } from "../browser/support/shop.js";
import type { Guide } from "./guide.js";

const OWNER = "Nerys Quillfeather";
const SHOP = "Tamsin Oakhollow";

/** The stop at which the first PDF is open. */
export const FIRST_PDF = "pdf";

export interface Places {
  readonly desk: Page;
  readonly phone: Page;
  /** Shows the first page of a PDF behind a link. */
  readonly paper: (page: Page, href: string) => Promise<Page>;
}

export async function tour(guide: Guide, { desk, phone, paper }: Places): Promise<void> {
  const button = (name: string | RegExp, page = desk) => page.getByRole("button", { name }).first();
  const link = (name: string | RegExp, page = desk) => page.getByRole("link", { name }).first();

  await desk.goto("/");
  await guide.stop(
    desk,
    "jobs",
    "The jobs",
    "The first page lists every job and how it stands. A unit comes in: *New estimate*.",
  );

  await guide.click(link("New estimate"));
  await guide.type(field(desk, "unit.maker"), "Quellmarsh");
  await guide.type(field(desk, "unit.model"), "Solivane 49");
  await guide.click(button("Start from this model's map"));
  await desk.getByText("The estimate starts from the map").waitFor();
  await guide.click(button(/^Owner, complaint and condition/));
  await guide.type(field(desk, "owner.name"), OWNER);
  await guide.type(field(desk, "unit.reported"), "Hum on every voice");
  await guide.click(button(/^Chorus board/));
  const before = await totalOn(desk);
  await guide.type(field(desk, "next.what"), "7 film capacitor");
  await guide.click(button("Add a line"));
  await totalAfter(desk, before);
  await guide.stop(
    desk,
    "intake",
    "Intake",
    "The model is known, so one click brings its boards, what must come off to reach each of them, and the counts usual for it. Who brought it and what it does are a fold away. Seven film capacitors on the chorus board are typed in one line. The total follows while you type.",
    field(desk, "cells.chorus.p:film"),
  );

  const opened = desk.context().waitForEvent("page");
  await guide.click(button("PDF"));
  await (await opened).close();
  await button("Save the estimate").click();
  await desk.waitForURL(/\?saved/);
  const sheet = await paper(desk, (await link("Estimate PDF").getAttribute("href"))!);
  await guide.stop(
    sheet,
    FIRST_PDF,
    "The first PDF",
    "*PDF* opens the estimate as it stands, saved or not. It says what is planned, what opens the unit, and how far the price may go.",
  );

  await guide.click(link("The job"));
  const job = new URL(desk.url()).pathname;
  await guide.click(link(/^Issue revision 1/));
  await guide.type(field(desk, "by"), SHOP);
  await guide.click(button("Issue revision 1"));
  await desk.locator("#address").waitFor();
  const address = await desk.locator("#address").inputValue();
  await guide.stop(
    desk,
    "issued",
    "Issued",
    "*Issue* freezes the estimate with its PDF. This shop has a public address (`OHMWRIGHT_ORIGIN`), so the owner's link is shown once: send it, or print the number and code. Without one the PDF is given on paper and the answer recorded.",
  );

  await phone.goto(address);
  await phone.waitForURL(/\/o\/estimate$/);
  await guide.stop(
    phone,
    "owner",
    "The owner's page",
    "On the owner's telephone: what is wrong and what will be done, the price and its limits, what may be found, and the answer; below it, how it adds up.",
  );

  await guide.type(field(phone, "name"), OWNER);
  await guide.click(button(/^Agree/, phone));
  await guide.click(button(/^Agree to/, phone));
  await phone.getByText("Your answer is on record.").waitFor();
  await guide.stop(
    phone,
    "agreed",
    "Agreed",
    "The answer is shown once more before it is sent; then both sides have the same record.",
  );

  await desk.goto(job);
  await guide.click(link("Bench"));
  await guide.type(field(desk, "by"), SHOP);
  await guide.click(button("I am working"));
  const rows = desk.locator("#works .bench-row").filter({ has: desk.getByRole("button", { name: /^(All|Tick off)/ }) });
  await guide.click(
    rows
      .first()
      .getByRole("button", { name: /^(All|Tick off)/ })
      .last(),
  );
  await desk.getByText("All sent.").waitFor();
  await guide.choose(field(desk, "work"), { index: 1 });
  await guide.type(field(desk, "minutes"), "55");
  await guide.click(button("Log the minutes"));
  await desk.locator("#works").getByText("55 min logged").first().waitFor();
  await guide.stop(
    desk,
    "bench",
    "The bench",
    "The work order: what comes off first, then each work with its count. Timers, ticks, readings and parts are entered where they are done; what was not agreed is blocked.",
    desk.locator("#works-name"),
  );

  await desk.goto(`${job}/close-out`);
  await guide.choose(field(desk, "untouched.all"), { index: 1 });
  await guide.choose(field(desk, "unlogged"), { index: 1 });
  await guide.type(field(desk, "by").last(), SHOP);
  await guide.click(button("Close the job"));
  await desk.getByRole("heading", { name: "Final account" }).waitFor();
  await guide.stop(
    desk,
    "close-out",
    "Closing out",
    "What was logged against what was allowed, the final account, and what the job earned and why. This walk timed one work only; the rest is said to be done, and stands at the time that was planned.",
  );

  await guide.click(button("Menu"));
  await guide.click(link("Looking back"));
  await desk.getByRole("heading", { name: "How near the estimates were" }).waitFor();
  await guide.stop(
    desk,
    "looking-back",
    "Looking back",
    "Each closed job says how near its estimate was. After three jobs that timed a standard, the rate book may learn from them.",
  );
}
