/** Beside the form: what is still to put right, and the sheet of what could be priced. */
import { SheetView } from "../sheet/sheetView.js";
import type { IntakeView } from "./view.js";

export const SheetPanel = ({ view }: { view: IntakeView }) => {
  const { outcome, context, complaints } = view;
  const sheet = outcome.ok ? outcome.sheet : outcome.partial;
  return (
    <>
      {complaints.length > 0 ? (
        <section class="to-do" aria-labelledby="to-do-name">
          <h3 id="to-do-name">To put right</h3>
          <ul>
            {complaints.slice(0, MOST).map(({ field, text }) => (
              <li>{field ? <a href={`#${encodeURI(field)}`}>{text}</a> : text}</li>
            ))}
          </ul>
          {complaints.length > MOST ? <p>And {complaints.length - MOST} more.</p> : null}
        </section>
      ) : null}
      {sheet ? (
        <SheetView sheet={sheet} input={view.read.input} tongue={context} />
      ) : (
        <p class="empty">Nothing can be priced before this is put right.</p>
      )}
    </>
  );
};

const MOST = 20;
