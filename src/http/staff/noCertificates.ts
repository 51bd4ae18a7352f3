/**
 * On the edge, in place of what reads certificates (wrangler.toml), a twentieth of the Worker: a passkey is asked for without an
 * attestation, so a browser sends none. One that comes with a certificate all the same is refused, as one that does not hold.
 */
class Unasked {
  constructor() {
    throw new Error("An attestation by certificate was not asked for.");
  }
}

export {
  Unasked as AuthorityKeyIdentifierExtension,
  Unasked as CRLDistributionPointsExtension,
  Unasked as KeyDescription,
  Unasked as SubjectKeyIdentifierExtension,
  Unasked as X509Certificate,
  Unasked as X509ChainBuilder,
  Unasked as X509Crl,
};
/** Of no extension that a certificate could have. */
export const id_ce_keyDescription = "";
