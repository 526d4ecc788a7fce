import { useEffect, useId, useRef } from 'react';
import type { ReactNode } from 'react';
import { createPortal } from 'react-dom';
import { Button } from '@mantine/core';
import './Dialog.css';

export interface DialogProps {
  title: string;
  onClose: () => void;
  children: ReactNode;
  /** No heading of its own: the content begins with its own field. */
  bare?: boolean;
  className?: string;
}

/**
 * A sheet over the sheet. The browser's own dialog keeps the focus inside, closes on Esc and gives the focus back. It hangs
 * from the body: a pane that is laid out anew takes what hangs in it off the page for an instant, and a dialog with it out of the layer above.
 */
export function Dialog({ title, onClose, children, bare = false, className = '' }: DialogProps) {
  const element = useRef<HTMLDialogElement>(null);
  const headingId = useId();
  useEffect(() => {
    const dialog = element.current;
    const before = document.activeElement;
    dialog?.showModal();
    return () => {
      dialog?.close();
      // One that the address opened had nothing before it.
      const back = before === document.body ? document.querySelector('main') : before;
      if (back instanceof HTMLElement) back.focus();
    };
  }, []);
  return createPortal(
    <dialog
      ref={element}
      className={`bw-dialog ${className}`}
      aria-labelledby={bare ? undefined : headingId}
      aria-label={bare ? title : undefined}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      onPointerDown={(event) => {
        // The veil is the dialog element itself outside of its box.
        if (event.target !== element.current) return;
        const box = element.current.getBoundingClientRect();
        const inside =
          event.clientX >= box.left &&
          event.clientX <= box.right &&
          event.clientY >= box.top &&
          event.clientY <= box.bottom;
        if (!inside) onClose();
      }}
    >
      {bare ? (
        children
      ) : (
        <>
          <div className="bw-dialog-head">
            <h2 id={headingId}>{title}</h2>
            <Button onClick={onClose}>Close</Button>
          </div>
          <div className="bw-dialog-body">{children}</div>
        </>
      )}
    </dialog>,
    document.body,
  );
}
