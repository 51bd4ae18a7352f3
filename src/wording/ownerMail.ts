/** What goes to an owner with a link to their page. Lines end with a bare line feed. */
export interface OwnerMail {
  readonly to: string;
  readonly subject: string;
  readonly text: string;
}

export interface MailAbout {
  readonly owner: { readonly name: string; readonly email?: string };
  readonly number: string;
  readonly unit: string;
  readonly revision: number;
  readonly shop: string;
  /** With its secret. */
  readonly address: string;
  readonly code: string;
}

export function ownerMail({ owner, number, unit, revision, shop, address, code }: MailAbout): OwnerMail {
  const page = address.split("#")[0];
  return {
    to: owner.email ?? "",
    subject: `Estimate ${number}, revision ${revision}: ${unit}`,
    text: [
      owner.name ? `Dear ${owner.name},` : "Hello,",
      "",
      `our written estimate for your ${unit} is ready. Read it and answer it here:`,
      "",
      address,
      "",
      `If the link does not open, go to ${page} and type the number ${number} and the code ${code}.`,
      "",
      shop,
    ].join("\n"),
  };
}
