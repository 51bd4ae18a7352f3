/** Whether the shop's own program sends the link; only where the shop has set one up. */
export const SendTick = ({ fields }: { fields: ReadonlyMap<string, string> }) => (
  <p class="tick">
    <input type="checkbox" id="send" name="send" value="yes" checked={fields.get("send") === "yes"} />
    <label for="send">Send it by e-mail now, through the shop's send hook</label>
  </p>
);
