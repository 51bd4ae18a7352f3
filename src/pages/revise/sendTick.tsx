import { Tick } from "../frame/field.js";

/** Whether the shop's own program sends the link; only where the shop has set one up. */
export const SendTick = ({ fields }: { fields: ReadonlyMap<string, string> }) => (
  <Tick name="send" label="Send it by e-mail now, through the shop's send hook" checked={fields.get("send") === "yes"} />
);
