/** The SHA-256 of some bytes or text, in hexadecimal. Node's crypto is loaded with the first of them. */
export async function sha256(of: Uint8Array | string): Promise<string> {
  const { createHash } = await import('node:crypto');
  return createHash('sha256').update(of).digest('hex');
}
