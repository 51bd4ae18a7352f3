/** A link that opens nothing any more: why, what is current, and what to do. */
import { type OwnerFrame, OwnerFramed } from "./ownerFrame.js";
import { type GoneView, OWNER_PATHS } from "./view.js";

export const GonePage = ({ frame, view: { shop, why, since, current } }: { frame: OwnerFrame; view: GoneView }) => (
  <OwnerFramed frame={frame} shop={shop} title="This link has ended">
    <h1>This link has ended</h1>
    <p>
      {why === "expired" ? `It was good until ${since}.` : `${shop.name} withdrew it on ${since}.`} Nothing you answered before is
      lost.
    </p>
    <p>
      The current estimate is <strong>{`${current.number}, revision ${current.revision}`}</strong>. If you have a newer link to
      it, or the code on its paper, <a href={OWNER_PATHS.home}>open it with that</a>; otherwise ask us for one.
    </p>
  </OwnerFramed>
);
