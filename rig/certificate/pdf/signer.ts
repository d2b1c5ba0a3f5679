/** The key that will sign, as it is printed. */
export type Signer = { readonly subject: string; readonly fingerprint: string };
