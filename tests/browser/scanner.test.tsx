/** A reader that types into the real page: nothing of a code lands anywhere, everything a person types does. */
import '../../renderer/styles/layers.css';
import '@mantine/core/styles.layer.css';
import { MantineProvider } from '@mantine/core';
import { useState } from 'react';
import type { ReactNode } from 'react';
import { beforeEach, describe, expect, it } from 'vitest';
import { render } from 'vitest-browser-react';
import { cdp, page, userEvent } from 'vitest/browser';
import { tagText } from '../../renderer/engine/tag/index.ts';
import type { ReaderSettings, TagReading } from '../../renderer/engine/tag/index.ts';
import { ReaderFields } from '../../renderer/features/scan/ReaderFields.tsx';
import { useScanner } from '../../renderer/features/scan/useScanner.ts';

const reader: ReaderSettings = { before: '', after: 'enter' };
const label = (tag: number): string => tagText({ kind: 'item', tag, piece: 2 });

const told = (readings: readonly TagReading[]): string[] =>
  readings.map((reading) => ('tag' in reading ? reading.text : `refused: ${reading.refused}`));

/** A screen with what a scan could disturb: a field in a form, a button, a shortcut of the window. */
async function openScreen() {
  const seen: { readings: TagReading[]; keys: string; presses: number; sent: string[] } = {
    ...{ readings: [], keys: '', presses: 0, sent: [] },
  };
  function Screen() {
    const [text, setText] = useState('');
    const [choice, setChoice] = useState('A4');
    useScanner(reader, (reading) => void seen.readings.push(reading));
    return (
      <form
        onSubmit={(event) => {
          event.preventDefault();
          seen.sent.push(text);
        }}
      >
        <input aria-label="Reason" value={text} onChange={({ currentTarget }) => setText(currentTarget.value)} />
        <select aria-label="Way" value={choice} onChange={({ currentTarget }) => setChoice(currentTarget.value)}>
          {['A4', '203 dpi', '300 dpi'].map((each) => (
            <option key={each}>{each}</option>
          ))}
        </select>
        <button type="button" onClick={() => (seen.presses += 1)}>
          Close bag
        </button>
      </form>
    );
  }
  await render(<Screen />);
  window.addEventListener('keydown', (event) => (seen.keys += event.key.length === 1 ? event.key : ''));
  return seen;
}

/** When the reader's next key goes down, 4 ms after the one before. */
let nextMs = 0;

/**
 * What a reader types, with times of its own: how fast keys come to the page is the machine's to say, and this one may be
 * busy. A key whose own work was not prevented is told, since that is what would land in a field or press a button.
 */
function scan(text: string): string[] {
  nextMs = Math.max(nextMs, performance.now());
  return [...text.replace('{Enter}', '⏎')].flatMap((sign) => {
    const key = sign === '⏎' ? 'Enter' : sign;
    const code = sign === '⏎' ? 'Enter' : `Digit${sign}`;
    const event = new KeyboardEvent('keydown', { key, code, bubbles: true, cancelable: true });
    nextMs += 4;
    Object.defineProperty(event, 'timeStamp', { value: nextMs });
    (document.activeElement ?? document.body).dispatchEvent(event);
    return event.defaultPrevented ? [] : [key];
  });
}

/** The same by the browser's own keyboard, one key behind the other without waiting. */
async function scanForReal(text: string): Promise<void> {
  const session = cdp() as unknown as { send: (method: string, key: object) => Promise<unknown> };
  const sent = [...text, 'Enter'].flatMap((key) => {
    const own =
      key === 'Enter'
        ? { key, code: key, windowsVirtualKeyCode: 13, text: '\r' }
        : { key, code: `Digit${key}`, windowsVirtualKeyCode: 48 + Number(key), text: key };
    const { text: _text, ...up } = own;
    return [
      session.send('Input.dispatchKeyEvent', { type: 'keyDown', ...own }),
      session.send('Input.dispatchKeyEvent', { type: 'keyUp', ...up }),
    ];
  });
  await Promise.all(sent);
}

const focus = (element: ReturnType<typeof page.getByRole>): void => (element.element() as HTMLElement).focus();

describe('a scan', () => {
  it('lands in no field and presses no button, wherever the focus is', async () => {
    const seen = await openScreen();
    const places = [page.getByLabelText('Reason'), page.getByLabelText('Way'), page.getByRole('button')];
    for (const [at, place] of places.entries()) {
      focus(place);
      expect(scan(`${label(at + 1)}{Enter}`)).toEqual([]);
    }
    (document.activeElement as HTMLElement).blur();
    expect(scan(`${label(4)}{Enter}`)).toEqual([]);
    await expect.poll(() => told(seen.readings)).toEqual([1, 2, 3, 4].map(label));
    await expect.element(page.getByLabelText('Reason')).toHaveValue('');
    await expect.element(page.getByLabelText('Way')).toHaveValue('A4');
    expect([seen.presses, seen.sent, seen.keys]).toEqual([0, [], '']);
  });

  it('that lost a digit is refused and leaves nothing either', async () => {
    const seen = await openScreen();
    focus(page.getByLabelText('Reason'));
    expect(scan(`${label(1).slice(1)}{Enter}`)).toEqual([]);
    await expect.poll(() => told(seen.readings)).toEqual([expect.stringContaining('11 digits')]);
    await expect.element(page.getByLabelText('Reason')).toHaveValue('');
    expect(seen.sent).toEqual([]);
  });

  it('is heard six hundred times in one go', async () => {
    const seen = await openScreen();
    focus(page.getByLabelText('Reason'));
    for (let tag = 1; tag <= 600; tag += 1) expect(scan(`${label(tag)}{Enter}`)).toEqual([]);
    expect(told(seen.readings)).toEqual(Array.from({ length: 600 }, (_, at) => label(at + 1)));
    expect(seen.keys).toBe('');
  });
});

// A machine may stall between two keys for longer than any reader does: then it is a person to the page.
it('leaves nothing in a field where the browser itself types it', { retry: 4 }, async () => {
  const seen = await openScreen();
  await userEvent.click(page.getByLabelText('Reason'));
  await scanForReal(label(8));
  await expect.poll(() => told(seen.readings), { timeout: 2000 }).toEqual([label(8)]);
  await expect.element(page.getByLabelText('Reason')).toHaveValue('');
  expect([seen.sent, seen.keys]).toEqual([[], '']);
});

describe('a person', () => {
  it('types digits and words, corrects them and sends them', async () => {
    const seen = await openScreen();
    await userEvent.click(page.getByLabelText('Reason'));
    await userEvent.keyboard('bag 3: 1/4 short 12{Backspace}');
    await expect.element(page.getByLabelText('Reason')).toHaveValue('bag 3: 1/4 short 1');
    await userEvent.keyboard('5{Enter}');
    await expect.poll(() => seen.sent).toEqual(['bag 3: 1/4 short 15']);
    expect(seen.readings).toEqual([]);
  });

  it('presses a button by Enter, a shortcut by its letters, and chooses by a digit', async () => {
    const seen = await openScreen();
    focus(page.getByRole('button'));
    await userEvent.keyboard('{Enter}gp');
    await expect.poll(() => [seen.presses, seen.keys]).toEqual([1, 'gp']);
    focus(page.getByLabelText('Way'));
    await userEvent.keyboard('3');
    await expect.element(page.getByLabelText('Way')).toHaveValue('300 dpi');
  });
});

describe('of several who ask', () => {
  const heard: string[] = [];
  function Asks({
    name,
    settings = reader,
    children,
  }: {
    name: string;
    settings?: ReaderSettings;
    children?: ReactNode;
  }) {
    useScanner(settings, (reading) => void heard.push(`${name} ${told([reading]).join('')}`));
    return children;
  }
  beforeEach(() => void heard.splice(0));

  it('the sheet over a screen alone hears a scan, and the screen again when that is gone', async () => {
    const screen = await render(<Asks name="screen" />);
    const sheet = await render(<Asks name="sheet" />);
    scan(`${label(1)}{Enter}`);
    // What the reader puts around a code is kept anew while the sheet is there.
    await screen.rerender(<Asks name="screen" settings={{ before: '~', after: 'enter' }} />);
    scan(`${label(2)}{Enter}`);
    await sheet.unmount();
    scan(`${label(3)}{Enter}`);
    expect(heard).toEqual([`sheet ${label(1)}`, `sheet ${label(2)}`, `screen ${label(3)}`]);
  });

  it('what lies in a screen hears it, drawn with it or later', async () => {
    const inner = <Asks name="inner" />;
    const screen = await render(<Asks name="screen">{inner}</Asks>);
    scan(`${label(1)}{Enter}`);
    await screen.rerender(<Asks name="screen" />);
    scan(`${label(2)}{Enter}`);
    await screen.rerender(<Asks name="screen">{inner}</Asks>);
    scan(`${label(3)}{Enter}`);
    expect(heard).toEqual([`inner ${label(1)}`, `screen ${label(2)}`, `inner ${label(3)}`]);
  });
});

it('is counted each by itself by a screen that counts on what it shows', async () => {
  function Counts() {
    const [count, setCount] = useState(0);
    useScanner(reader, () => setCount(count + 1));
    return <output>{count} counted</output>;
  }
  await render(<Counts />);
  for (let tag = 1; tag <= 20; tag += 1) scan(`${label(tag)}{Enter}`);
  expect(document.querySelector('output')?.textContent).toBe('20 counted');
});

it('is tried in the settings, which say what it was', async () => {
  const kept: ReaderSettings[] = [];
  await render(
    <MantineProvider>
      <ReaderFields settings={undefined} onSettings={(settings) => kept.push(settings)} />
    </MantineProvider>,
  );
  const field = page.getByLabelText('Try your reader here');
  await userEvent.click(field);
  await userEvent.keyboard('7 ');
  expect(scan(`${label(12)}{Enter}`)).toEqual([]);
  await expect.element(page.getByRole('status')).toHaveTextContent('Scan 1: read 1 000012 002');
  await expect.element(page.getByRole('status')).toHaveTextContent('label 12, piece 2');
  await expect.element(field).toHaveValue('7 ');
  expect(scan('4006381333931{Enter}')).toEqual([]);
  await expect.element(page.getByRole('status')).toHaveTextContent('Scan 2: refused, “4006381333931” has 13 digits');
  await userEvent.click(page.getByLabelText('Tab', { exact: true }));
  expect(kept).toEqual([{ before: '', after: 'tab' }]);
});
