/** The page's two blanks, filled for one answer. */
import { randomBytes } from 'node:crypto';

const nonceBlank = '__CSP_NONCE__';
const tokenBlank = '__TOKEN__';

export function freshNonce(): string {
  return randomBytes(16).toString('base64');
}

/** In the desktop shell the token is empty: there is no server to show it to. */
export function fillPage(page: string, { nonce, token }: { nonce: string; token: string }): string {
  return page.replaceAll(nonceBlank, nonce).replaceAll(tokenBlank, token);
}
