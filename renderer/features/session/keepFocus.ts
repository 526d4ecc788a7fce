/** What had the focus, and what lay around it then, from the inside out. */
interface Held {
  element: Element;
  around: readonly Element[];
  wasDisabled: boolean;
}

/**
 * Where a deed takes away what had the focus, the focus goes to the nearest thing around it that is still there, so that a
 * hand on the keyboard is never nowhere; where a button is disabled while its deed is done, the focus comes back to it.
 */
export function keepFocus(): () => void {
  let onPage: Held | null = null;
  let inDialog: Held | null = null;
  const onFocus = ({ target }: FocusEvent): void => {
    if (!(target instanceof Element)) return;
    const held = { element: target, around: aroundOf(target), wasDisabled: false };
    if (target.closest('dialog') === null) [onPage, inDialog] = [held, null];
    else inDialog = held;
  };
  const look = (): void => {
    // What was in a dialog counts while the dialog is there.
    if (inDialog?.around.at(-1)?.isConnected === false) inDialog = null;
    const held = inDialog ?? onPage;
    if (held === null) return;
    const { element, around } = held;
    if (element.isConnected && element.matches(':disabled')) held.wasDisabled = true;
    else if (document.activeElement !== document.body) return;
    else if (!element.isConnected) takeTo(around.find((one) => one.isConnected));
    else if (held.wasDisabled) takeTo(element);
  };
  const observer = new MutationObserver(look);
  observer.observe(document.body, { subtree: true, childList: true, attributeFilter: ['disabled'] });
  document.addEventListener('focusin', onFocus);
  return () => {
    observer.disconnect();
    document.removeEventListener('focusin', onFocus);
  };
}

/** Up to the dialog or the page's sheet: beyond it there is nothing to be read. */
function aroundOf(element: Element): Element[] {
  const around: Element[] = [];
  for (let at = element.parentElement; at !== null && at !== document.body; at = at.parentElement) {
    around.push(at);
    if (at.matches('dialog, main')) break;
  }
  return around;
}

function takeTo(element: Element | undefined): void {
  if (!(element instanceof HTMLElement || element instanceof SVGElement)) return;
  if (element.tabIndex < 0 && !element.hasAttribute('tabindex')) {
    element.tabIndex = -1;
    element.addEventListener('blur', () => element.removeAttribute('tabindex'), { once: true });
  }
  element.focus({ preventScroll: true });
}
