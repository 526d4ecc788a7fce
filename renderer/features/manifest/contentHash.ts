/** First eight hexadecimal digits of the SHA-256 of a text, as "7f3a 91c2". */
export async function contentHash(text: string): Promise<string> {
  const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text));
  const digits = [...new Uint8Array(digest).slice(0, 4)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return `${digits.slice(0, 4)} ${digits.slice(4)}`;
}
