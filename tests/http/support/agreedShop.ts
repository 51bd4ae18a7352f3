/** A shop of this test's own in which the tape echo's first revision is agreed to, without its options. Agreed to once, and copied. */
import { agreedJob } from "../../records/support/closed.js";
import { madeOnce } from "./madeOnce.js";
import { demoFile, shop } from "./shop.js";

export const agreedFile = madeOnce((db) => agreedJob(db), demoFile);

export const agreedShop = async () => shop({}, (await agreedFile()).path);
