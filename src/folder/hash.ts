let loaded: typeof import('node:crypto') | undefined;

/** The SHA-256 of some bytes or text, in hexadecimal. Node's crypto is loaded with the first of them. */
export async function sha256(of: Uint8Array | string): Promise<string> {
  loaded ??= await import('node:crypto');
  return loaded.createHash('sha256').update(of).digest('hex');
}
