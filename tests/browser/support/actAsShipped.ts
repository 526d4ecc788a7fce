/**
 * React as it ships has no `act`, by which what is rendered in a test stands before the next line of it. This does the same: it
 * renders at once, effects included.
 */
import React from 'react';
import { flushSync } from 'react-dom';

if (typeof React.act !== 'function') {
  const act = async (work: () => Promise<void> | void): Promise<void> => {
    let working: Promise<void> | undefined;
    flushSync(() => {
      working = Promise.resolve(work());
    });
    await working;
  };
  Object.assign(React, { act });
}
