/** Whichever page the view is of. */
import { EntryPage } from "./entryPage.js";
import { EstimatePage } from "./estimatePage.js";
import { GonePage } from "./gonePage.js";
import type { OwnerFrame } from "./ownerFrame.js";
import type { OwnerView } from "./view.js";

export const OwnerPage = ({ frame, view }: { frame: OwnerFrame; view: OwnerView }) => {
  switch (view.is) {
    case "entry":
      return <EntryPage frame={frame} view={view} />;
    case "gone":
      return <GonePage frame={frame} view={view} />;
    case "estimate":
      return <EstimatePage frame={frame} view={view} />;
  }
};
