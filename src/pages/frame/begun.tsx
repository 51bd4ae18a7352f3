/** New estimates that were begun, here or on another device, and are no job yet: offered where one would begin another. */
export interface Begun {
  readonly id: string;
  readonly unit: string;
  /** Day and time, as a person reads it. */
  readonly at: string;
}

export const BegunOffer = ({ begun }: { readonly begun: readonly Begun[] }) =>
  begun.map(({ id, unit, at }) => (
    <form method="post" action="/estimates/new" class="undo begun" data-begun={id}>
      <input type="hidden" name="meta.draft" value={id} />
      You began an estimate for {unit}, last typed on {at}: <a href={`/estimates/new?draft=${id}`}>Go on</a>{" "}
      <button type="submit" name="intent" value="throw away">
        Throw away
      </button>
    </form>
  ));
