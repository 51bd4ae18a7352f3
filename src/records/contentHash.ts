import { canonical } from "../estimating/agreement/canonical.js";
import { sha256 } from "./sha256.js";

/** SHA-256, in hex, of a JSON value with its keys in order: the same content has the same hash wherever it was written. */
export const contentHash = (value: unknown): Promise<string> => sha256(canonical(value));
