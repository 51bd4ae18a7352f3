/** Names what a form writes, so that a form sent twice writes once. */
import { uuidv7 } from "uuidv7";

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

export const tokenOf = (fields: ReadonlyMap<string, string>): string =>
  UUID.test(fields.get("token") ?? "") ? fields.get("token")! : uuidv7();
