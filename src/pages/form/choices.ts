/** How sure a line is, in the order the form offers it. */
export const CERTAINTIES = ["planned", "if found", "optional"] as const;
