/** No map and no time: how many boards, by size and by how they are mounted. */
import { BOARD_SIZES, MOUNTINGS } from "../../estimating/lists.js";
import { capital } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { ties, Wrong } from "../frame/field.js";
import type { IntakeView } from "./view.js";

export const BoardsPart = ({ view }: { view: IntakeView }) => {
  const counted = Object.values(view.read.draft.boards).some((row) => Object.values(row).some((text) => text.trim() !== ""));
  const wrong = [...view.errors.keys()].filter((field) => field.startsWith("boards."));
  return (
    <details class="part fold" id="part-boards" open={counted}>
      <summary>
        No map and no time: count the boards
        <span class="hint"> Access then goes by the rate book's standards, and the sheet says how far it may be out.</span>
      </summary>
      <section class="scroll" tabindex={0} aria-labelledby="boards-name">
        <table class="boards">
          <caption id="boards-name" class="unseen">
            Boards by size and mounting
          </caption>
          <thead>
            <tr>
              <th scope="col">Boards</th>
              {MOUNTINGS.map((mounting) => (
                <th scope="col" id={`boards-${key(mounting)}`}>
                  {capital(mounting)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {BOARD_SIZES.map((size) => (
              <tr>
                <th scope="row" id={`boards-${size}`}>
                  {capital(size)}
                </th>
                {MOUNTINGS.map((mounting) => {
                  const field = `boards.${size}.${key(mounting)}`;
                  return (
                    <td>
                      <input
                        id={field}
                        name={field}
                        value={view.fields.get(field) ?? ""}
                        inputmode="numeric"
                        autocomplete="off"
                        class="size-figure"
                        aria-labelledby={`boards-${size} boards-${key(mounting)}`}
                        {...ties({ ...view, name: field })}
                      />
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      {wrong.map((field) => (
        <Wrong {...view} name={field} />
      ))}
      <p class="actions">
        <button type="submit" name="intent" value="refine">
          Refine into named boards
        </button>
        <span class="hint">Gives each board a row in the grid. Everything typed stays, and the price does not change.</span>
      </p>
    </details>
  );
};
