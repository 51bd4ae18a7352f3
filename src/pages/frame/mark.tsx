/** Whose page this is. */
export const Mark = ({ shop }: { shop?: string }) => (
  <p class="mark">
    <a href="/">
      <span class="mark-ohm" aria-hidden="true">
        Ω
      </span>
      Ohmwright
    </a>
    {shop ? <span class="shop">{shop}</span> : null}
  </p>
);
