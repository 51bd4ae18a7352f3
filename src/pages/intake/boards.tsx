/** No map and no time: how many boards, by size and by how they are mounted. */
import { BOARD_SIZES, MOUNTINGS } from "../../estimating/lists.js";
import { capital } from "../../wording/list.js";
import { key } from "../form/fields.js";
import { ties, Wrong } from "../frame/field.js";
import { Fold } from "./fold.js";
import type { IntakeView } from "./view.js";

export const BoardsPart = ({ view }: { view: IntakeView }) => {
  const counts = BOARD_SIZES.flatMap((size) =>
    MOUNTINGS.flatMap((mounting) => {
      const count = view.fields.get(`boards.${size}.${key(mounting)}`)?.trim();
      return count ? [`${count} ${size}, ${mounting}`] : [];
    }),
  );
  return (
    <Fold
      view={view}
      name="boards"
      title="Boards by size, without names"
      says={counts.length > 0 ? counts.join("; ") : "none counted; for a quick price, by how large the boards are"}
      holds={/^boards\./}
    >
      {() => <BoardTable view={view} />}
    </Fold>
  );
};

const BoardTable = ({ view }: { view: IntakeView }) => {
  const wrong = [...view.errors.keys()].filter((field) => field.startsWith("boards."));
  return (
    <>
      <p class="hint">
        Access then goes by the rate book's standards, and the sheet says how far it may be out. Of several boards behind one
        panel, count one behind it and the rest on top: the panel comes off once.
      </p>
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
    </>
  );
};
