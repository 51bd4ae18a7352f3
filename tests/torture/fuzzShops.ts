/** So many requests to demo shops, each of which lives for a while. */
import { openShop } from "../http/support/shop.js";
import { counting, dice, type Fuzzed, formsFrom, fuzzForm, fuzzOperation, idsOf, operationsOf } from "./fuzz.js";

/** A shop is fuzzed so many times before a new one takes its place. */
const EACH = 400;

export async function fuzzed(requests: number, seed: number, into: Fuzzed = counting()): Promise<Fuzzed> {
  for (let lot = 0; into.requests < requests; lot += 1) {
    const of = dice(seed * 1_000_003 + lot);
    const opened = await openShop();
    // What the app says of its faults is in what is counted.
    const { error } = console;
    console.error = () => undefined;
    try {
      const [operations, ids, forms] = [
        await operationsOf(opened.app),
        await idsOf(opened.app),
        await formsFrom(opened.app, 120),
      ];
      for (let times = 0; times < EACH && into.requests < requests; times += 1)
        if (of.next() < 0.5) await fuzzOperation(opened.app, of.one(operations), ids, of, into);
        else await fuzzForm(opened.app, of.one(forms), of, into);
    } finally {
      console.error = error;
      await opened.close();
    }
  }
  return into;
}
