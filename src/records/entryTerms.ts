/** How long the ways in last, and how often one may be wrong. The help tells them; a test holds it to these. */

export const INVITATION_DAYS = 3;

/** From its last use, and in all. */
export const SESSION_DAYS = 7;
export const SESSION_LONGEST_DAYS = 30;
/** A pass by the shop's secret, before anyone has an account. */
export const PASS_DAYS = 7;
/** To answer what was asked for a passkey. */
export const CHALLENGE_SECONDS = 300;

/** From one place, or from a browser that the account was signed in with before. */
export const FAILURES_ALLOWED = 10;
/** For one account from places and browsers it does not know: more than one place has, so that none closes it alone. */
export const ACCOUNT_FAILURES_ALLOWED = 50;
export const FAILURES_MINUTES = 15;

/** Prices that one owner's link or one token is told. */
export const PRICES_ALLOWED = 120;
export const PRICES_MINUTES = 1;

/** NIST SP 800-63B-4, from memory: 15 characters where nothing else is asked for, and no rules about which. */
export const PASSPHRASE_LENGTH = 15;
export const PASSPHRASE_LONGEST = 200;
export const RECOVERY_CODES = 10;
