/**
 * Puts a text on the clipboard by the copy event, which asks for no permission: the shell grants none.
 *
 * @returns whether the browser took it
 */
export function copyText(text: string): boolean {
  let taken = false;
  const onCopy = (event: ClipboardEvent): void => {
    event.preventDefault();
    event.stopImmediatePropagation();
    event.clipboardData?.setData('text/plain', text);
    taken = event.clipboardData !== null;
  };
  document.addEventListener('copy', onCopy, { capture: true });
  try {
    document.execCommand('copy');
  } finally {
    document.removeEventListener('copy', onCopy, { capture: true });
  }
  return taken;
}
