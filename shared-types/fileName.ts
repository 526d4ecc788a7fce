/**
 * A name that every file system takes, made from one a person or a file proposed. It is a name only, never a path:
 * separators become dashes, so it cannot leave the folder it is saved in.
 */
const forbidden = /[<>:"/\\|?*]/g;
/** Device names are reserved on Windows with any ending: `CON`, `con.txt`, `LPT1.tar.gz`. */
const device = /^(?:con|prn|aux|nul|conin\$|conout\$|(?:com|lpt)[0-9¹²³])\s*(?=\.|$)/i;
/** Room is left below the 255 bytes of the usual file systems for a temporary ending beside the final name. */
const longestBytes = 200;
const ending = /\.[a-z0-9]{1,10}$/i;

export function safeFileName(proposed: string, fallback = 'bagwright'): string {
  const plain = proposed
    .normalize('NFC')
    // Controls, zero-width signs, direction overrides and half a surrogate pair hide what a name really says.
    .replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}\uFFFD]/gu, '')
    .replace(forbidden, '-')
    .replace(/\p{Zs}+/gu, ' ')
    // Windows drops trailing dots and spaces without a word; leading dots hide a file elsewhere.
    .replace(/^[\s.]+|[\s.]+$/gu, '');
  const tail = ending.exec(plain)?.[0] ?? '';
  const stem = plain.slice(0, plain.length - tail.length).replace(/[\s.]+$/u, '');
  const named = /[^\s.-]/u.test(stem) ? stem : fallback;
  return cutToBytes(device.test(named) ? `_${named}` : named, longestBytes - tail.length) + tail;
}

function cutToBytes(text: string, limit: number): string {
  let bytes = 0;
  let kept = '';
  for (const sign of text) {
    bytes += utf8Bytes(sign.codePointAt(0) ?? 0);
    if (bytes > limit) return kept.replace(/[\s.]+$/u, '');
    kept += sign;
  }
  return kept;
}

function utf8Bytes(codePoint: number): number {
  if (codePoint < 0x80) return 1;
  if (codePoint < 0x800) return 2;
  return codePoint < 0x10000 ? 3 : 4;
}
