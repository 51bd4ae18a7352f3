/** Everything to put right, at the top, each with a way to its field. What has no field of its own stands under the name ''. */
export const ErrorSummary = ({ errors }: { errors: ReadonlyMap<string, string> }) =>
  errors.size === 0 ? null : (
    <section class="summary" id="summary" aria-labelledby="summary-name" tabindex={-1} autofocus>
      <div role="alert">
        <h2 id="summary-name">Please look at this again</h2>
        <ul>
          {[...errors].map(([field, text]) => (
            <li>{field === "" ? text : <a href={`#${encodeURI(field)}`}>{text}</a>}</li>
          ))}
        </ul>
      </div>
    </section>
  );

/** What just happened. */
export const Said = ({ say }: { say?: string | undefined }) => (
  <p role="status" class={say ? "said" : "said empty-said"} id="said">
    {say ?? ""}
  </p>
);
