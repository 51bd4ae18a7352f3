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

/** Kinds of attestation that always come with one. */
const holds = async () => false;

export {
  holds as verifyAttestationAndroidKey,
  holds as verifyAttestationAndroidSafetyNet,
  holds as verifyAttestationApple,
  holds as verifyAttestationFIDOU2F,
  holds as verifyAttestationTPM,
};

/** Of no extension that a certificate could have, and roots that none goes back to. */
const NONE = "";

export {
  NONE as Apple_WebAuthn_Root_CA,
  NONE as GlobalSign_Root_CA,
  NONE as GlobalSign_Root_CA_R3,
  NONE as GlobalSign_Root_R46,
  NONE as Google_Hardware_Attestation_Root_1,
  NONE as Google_Hardware_Attestation_Root_2,
  NONE as Google_Hardware_Attestation_Root_3,
  NONE as Google_Hardware_Attestation_Root_4,
  NONE as id_ce_keyDescription,
};
