import { describe, expect, it } from 'vitest';
import { page, userEvent } from 'vitest/browser';
import { mapResult, mapSource } from '../support/bagMapPlan.ts';
import { axeFaults } from './support/axe.ts';
import { button, byCode, expectOneAct, openTask } from './support/openTask.tsx';

/** The bag of the invented outing, planned, on its sheet. */
async function openBag(source: unknown = mapSource) {
  const opened = await openTask(source, '#/bag');
  const { planHash } = opened.session.state().atHand ?? { planHash: '' };
  const plannedAt = new Date().toISOString();
  opened.session.keepResult(planHash, { minimised: 'mass', timeLimitS: null, plannedAt, result: mapResult });
  await expect.element(page.getByRole('figure', { name: 'Bag map of outing o' })).toBeVisible();
  return opened;
}

const piece = (name: RegExp) => page.getByRole('button', { name });
const socket = () => piece(/^S-13, /);
const status = () => page.getByRole('figure', { name: 'Bag map of outing o' }).getByRole('status');
const linesOf = async ({ store }: Awaited<ReturnType<typeof openBag>>) =>
  (await byCode(store, 'outings')).get('o')?.bagMap ?? [];
const bagOf = (name: RegExp): string =>
  (piece(name).element().closest('[data-bag]') as SVGElement | null)?.dataset['bag'] ?? '';
const focusPiece = (name: RegExp): void => (piece(name).element() as SVGElement).focus();

describe('with the keyboard', () => {
  it('picks a piece up, moves it and sets it down, says each, keeps it, and takes it back with Undo', async () => {
    const opened = await openBag();
    focusPiece(/^S-13, /);
    await userEvent.keyboard('{Enter}');
    await expect.element(status()).toHaveTextContent(/^S-13 picked up: \d+ mm from the left/);
    await expect.element(piece(/^S-13, .*picked up$/)).toHaveAttribute('aria-pressed', 'true');
    await userEvent.keyboard('{ArrowRight}{ArrowRight}{ArrowDown}{ArrowDown}{ArrowDown}{Shift>}{ArrowRight}{/Shift}');
    await expect
      .element(status())
      .toHaveTextContent(/^S-13: \d+ mm from the left and \d+ mm from the top of Lead’s bag\.$/);
    expect(await linesOf(opened)).toEqual([]);
    await userEvent.keyboard('{Enter}');
    await expect.element(status()).toHaveTextContent(/^S-13 set down: .* of Lead’s bag\.$/);
    await expect.poll(() => linesOf(opened)).toMatchObject([{ item: 'S-13', bag: 'L', to: 'L', turned: false }]);
    expect(opened.store.history().undo?.title).toBe('Lay S-13 in the bag');
    await expect.element(socket()).toHaveFocus();
    await opened.store.undo();
    await expect.poll(() => linesOf(opened)).toEqual([]);
  });

  it('puts it back with Escape, and changes nothing', async () => {
    const opened = await openBag();
    focusPiece(/^S-13, /);
    const before = socket().element().getAttribute('transform');
    await userEvent.keyboard(' {ArrowDown}{ArrowDown}t');
    expect(
      piece(/^S-13, /)
        .element()
        .getAttribute('transform'),
    ).not.toBe(before);
    await userEvent.keyboard('{Escape}');
    await expect.element(status()).toHaveTextContent('S-13 put back where it was.');
    expect(socket().element().getAttribute('transform')).toBe(before);
    expect(await linesOf(opened)).toEqual([]);
    await expect.element(socket()).toHaveFocus();
  });

  it('takes it into another bag that may hold it: list, limits and saved lines follow', async () => {
    const opened = await openBag();
    focusPiece(/^S-13, /);
    await userEvent.keyboard('{Enter}{PageDown}');
    await expect.element(status()).toHaveTextContent(/of Common box/);
    // The tethers lie at the top; below them is room.
    for (let index = 0; index < 13; index += 1) await userEvent.keyboard('{ArrowDown}');
    await userEvent.keyboard('{Enter}');
    await expect.element(status()).toHaveTextContent(/^S-13 set down: .* of Common box\.$/);
    await expect.poll(() => bagOf(/^S-13, /)).toBe('C');
    const held = () => opened.session.state().result?.result.outings[0]?.items.find(({ id }) => id === 'S-13')?.bag;
    await expect.poll(held).toBe('C');
    expect(opened.session.state().planned?.result).toEqual(mapResult);
    await expect.element(page.getByText(/by an independent count: 2 steps/)).toBeInTheDocument();
    await opened.store.undo();
    await expect.poll(held).toBe('L');
  });

  it('refuses a bag with the number or the role that forbids it, and keeps the piece in hand', async () => {
    const opened = await openBag();
    focusPiece(/^R-38, /);
    await userEvent.keyboard('{Enter}{PageDown}{Enter}');
    await expect
      .element(status())
      .toHaveTextContent('R-38 stays where it was. Common box would hold 4 tether points of at most 3: 1 over.');
    await expect.element(piece(/^R-38, .*picked up$/)).toHaveFocus();
    await userEvent.keyboard('{PageDown}{Enter}');
    await expect.element(status()).toHaveTextContent('Second’s bag is Second’s: none of Second’s steps uses it.');
    await userEvent.keyboard('{Escape}');
    expect(await linesOf(opened)).toEqual([]);
  });

  it('refuses a place where another lies, with how far into it', async () => {
    const opened = await openBag();
    focusPiece(/^S-13, /);
    await userEvent.keyboard('{Enter}{ArrowLeft}{ArrowLeft}{ArrowLeft}{Enter}');
    await expect
      .element(status())
      .toHaveTextContent(/^S-13 stays where it was\. No room there: \d+ mm into the place of R-38\.$/);
    expect(await linesOf(opened)).toEqual([]);
  });

  it('is one stop of Tab: arrows go from piece to piece, and the list goes along', async () => {
    await openBag();
    expect(document.querySelectorAll('[data-block][tabindex="0"]')).toHaveLength(1);
    focusPiece(/^R-38, /);
    await userEvent.keyboard('{ArrowDown}');
    await expect.element(socket()).toHaveFocus();
    await expect.element(page.getByRole('heading', { name: /Socket 13 mm: why it is here/ })).toBeInTheDocument();
    await userEvent.keyboard('{ArrowUp}');
    await expect.element(piece(/^R-38, /)).toHaveFocus();
  });
});

describe('single pieces of a line', () => {
  const held = (opened: Awaited<ReturnType<typeof openBag>>) =>
    opened.session
      .state()
      .result?.result.outings[0]?.items.filter(({ id }) => id === 'T-07')
      .map(({ bag, quantity }) => `${quantity} in ${bag}`);

  it('go into another bag by the keyboard: list and limits follow, one act, undone and done again', async () => {
    const opened = await openBag();
    focusPiece(/^T-07, /);
    await expectOneAct(opened.store, 'Lay 1 of 3 × T-07 in the bag', ['outings'], async () => {
      await userEvent.keyboard('--{Enter}');
      await expect.element(status()).toHaveTextContent(/^1 of 3 × T-07 picked up: .* of Common box/);
      await expect.element(piece(/^T-07, Tool tether, 2 pieces$/)).toBeInTheDocument();
      await expect.element(piece(/^T-07, Tool tether, 1 piece, picked up$/)).toHaveFocus();
      await userEvent.keyboard('{PageUp}');
      for (let index = 0; index < 12; index += 1) await userEvent.keyboard('{ArrowDown}');
      await userEvent.keyboard('{Enter}');
      await expect.element(status()).toHaveTextContent(/^1 of 3 × T-07 set down: .* of Lead’s bag\.$/);
      await expect.poll(() => linesOf(opened)).toHaveLength(1);
    });
    expect(await linesOf(opened)).toMatchObject([{ item: 'T-07', bag: 'C', to: 'L', apart: { part: 1, pieces: 1 } }]);
    await expect.poll(() => held(opened)).toEqual(['1 in L', '2 in C']);
    await expect.element(piece(/^T-07, Tool tether, 1 piece, apart$/)).toBeInTheDocument();
    const rows = [...document.querySelectorAll('[role=grid][aria-label="Contents by bag"] [role=row]')];
    expect(rows.filter(({ textContent }) => textContent.includes('T-07'))).toHaveLength(2);
    expect(await axeFaults()).toEqual([]);
  });

  it('go by pressing too, and back to the rest; a bag that does not take them is refused with its number', async () => {
    const opened = await openBag();
    await userEvent.click(piece(/^T-07, /));
    await userEvent.click(button('One piece of T-07 less'));
    await expect.element(page.getByText('2 of 3 taken')).toBeVisible();
    await userEvent.click(button('Into Second’s bag'));
    await expect
      .element(status())
      .toHaveTextContent(
        /^2 of 3 × T-07 stays where it was\. Second’s bag is Second’s: none of Second’s steps uses it/,
      );
    await userEvent.click(button('Into Lead’s bag'));
    await expect.poll(() => held(opened)).toEqual(['2 in L', '1 in C']);
    await userEvent.click(button('Lay with the rest'));
    await expect.element(status()).toHaveTextContent('2 × T-07 lies with the rest of its line again.');
    await expect.poll(() => held(opened)).toEqual(['3 in C']);
    expect(opened.store.history().undo?.title).toBe('Lay 2 × T-07 with the rest again');
  });

  it('fall back with a word where the new plan packs no more of them', async () => {
    const opened = await openBag();
    const outing = (await byCode(opened.store, 'outings')).get('o');
    if (outing === undefined) throw new Error('no outing');
    const apart = { item: 'T-07', bag: 'C', to: 'L', xMm: 8, yMm: 130, turned: false, apart: { part: 1, pieces: 3 } };
    const put = { ...outing, bagMap: [apart] };
    await opened.store.commit({ action: 'lay-out-bag', title: 'Lay', proposals: [{ table: 'outings', put }] });
    await expect
      .element(status())
      .toHaveTextContent('Laid by hand before, lies by itself now: this plan does not pack it there: T-07.');
    expect(held(opened)).toEqual(['3 in C']);
  });
});

describe('from the palette', () => {
  async function call(command: string): Promise<void> {
    await userEvent.keyboard('{Control>}k{/Control}');
    await userEvent.fill(page.getByRole('combobox', { name: 'Find or do' }), command);
    await expect.element(page.getByRole('option', { name: command }).first()).toBeVisible();
    await userEvent.keyboard('{Enter}');
  }

  it('the line in hand is kept, forbidden and given a spare', async () => {
    await openBag();
    await userEvent.click(piece(/^T-07, /));
    await call('Keep the line in hand always, or no longer');
    await expect.element(page.getByText('Kept always: 3 × Tool tether (T-07)')).toBeVisible();
    await call('Add one spare of the line in hand, or take it off');
    await expect.element(page.getByText('Spare: 1 × Tool tether (T-07) beyond the need')).toBeVisible();
    await call('Forbid the line in hand, or no longer');
    await expect.element(page.getByText('Forbidden: Tool tether (T-07)')).toBeVisible();
    await expect.element(page.getByText(/Kept always: 3/)).not.toBeInTheDocument();
  });

  it('the piece in hand is picked up, counted, moved, turned, taken over another bag, set down and laid out anew', async () => {
    const opened = await openBag();
    await userEvent.click(piece(/^T-07, /));
    await call('Bag map: take one piece less');
    await expect.element(status()).toHaveTextContent('2 of 3 × T-07 is what will be taken.');
    await call('Bag map: pick up the piece in hand, or set it down');
    await expect.element(status()).toHaveTextContent(/^2 of 3 × T-07 picked up/);
    await call('Bag map: turn the piece in hand');
    await expect.element(status()).toHaveTextContent(/turned/);
    await call('Bag map: put back what is picked up');
    await expect.element(status()).toHaveTextContent('T-07 put back where it was.');
    await userEvent.click(socket());
    await call('Bag map: move the piece in hand down 10 mm');
    await call('Bag map: move the piece in hand down 10 mm');
    await call('Bag map: move the piece in hand down 10 mm');
    await call('Bag map: move the piece in hand down 10 mm');
    await call('Bag map: pick up the piece in hand, or set it down');
    await expect.poll(() => linesOf(opened)).toMatchObject([{ item: 'S-13', bag: 'L', to: 'L' }]);
    await call('Bag map: lay all out by itself');
    await expect.poll(() => linesOf(opened)).toEqual([]);
  });
});

describe('with a pointer', () => {
  const at = (element: Element, [x, y]: [number, number]): { clientX: number; clientY: number } => {
    const { left, top } = element.getBoundingClientRect();
    return { clientX: left + x, clientY: top + y };
  };
  const point = (type: string, target: EventTarget, where: { clientX: number; clientY: number }): void =>
    void target.dispatchEvent(
      new PointerEvent(type, { ...where, bubbles: true, button: 0, pointerType: 'mouse', isPrimary: true }),
    );

  it('drags a piece to another place', async () => {
    const opened = await openBag();
    const element = socket().element();
    const field = element.closest('[data-bag]');
    if (field === null) throw new Error('no bag');
    const from = at(element, [6, 6]);
    point('pointerdown', element, from);
    point('pointermove', window, { clientX: from.clientX + 60, clientY: from.clientY + 40 });
    await expect.element(piece(/^S-13, .*picked up$/)).toBeInTheDocument();
    point('pointerup', window, { clientX: from.clientX + 60, clientY: from.clientY + 40 });
    await expect.poll(() => linesOf(opened)).toMatchObject([{ item: 'S-13', to: 'L' }]);
  });

  it('drags so many pieces as are taken, and leaves the rest', async () => {
    const opened = await openBag();
    await userEvent.click(piece(/^T-07, /));
    await userEvent.click(button('One piece of T-07 less'));
    await userEvent.click(button('One piece of T-07 less'));
    const element = piece(/^T-07, /).element();
    const from = at(element, [6, 6]);
    point('pointerdown', element, from);
    point('pointermove', window, { clientX: from.clientX + 100, clientY: from.clientY + 120 });
    await expect.element(piece(/^T-07, Tool tether, 1 piece, picked up$/)).toBeInTheDocument();
    await expect.element(piece(/^T-07, Tool tether, 2 pieces$/)).toBeInTheDocument();
    point('pointerup', window, { clientX: from.clientX + 100, clientY: from.clientY + 120 });
    await expect
      .poll(() => linesOf(opened))
      .toMatchObject([{ item: 'T-07', bag: 'C', to: 'C', apart: { part: 1, pieces: 1 } }]);
  });

  it('a press without a move takes the piece in hand and moves nothing', async () => {
    const opened = await openBag();
    await userEvent.click(piece(/^T-07, /));
    await expect.element(page.getByRole('heading', { name: /Tool tether: why it is here/ })).toBeInTheDocument();
    expect(await linesOf(opened)).toEqual([]);
  });

  it('drag is given up with Escape', async () => {
    const opened = await openBag();
    const element = socket().element();
    const from = at(element, [6, 6]);
    point('pointerdown', element, from);
    point('pointermove', window, { clientX: from.clientX + 60, clientY: from.clientY + 40 });
    await expect.element(piece(/^S-13, .*picked up$/)).toBeInTheDocument();
    await userEvent.keyboard('{Escape}');
    await expect.element(status()).toHaveTextContent('S-13 put back where it was.');
    point('pointerup', window, from);
    expect(await linesOf(opened)).toEqual([]);
  });

  it('needs no dragging: pick up, press where it shall lie; or the buttons beneath', async () => {
    const opened = await openBag();
    await userEvent.click(socket());
    await userEvent.click(button('Pick up'));
    const field = document.querySelector('[data-bag="L"]');
    if (field === null) throw new Error('no bag');
    const box = field.querySelector('[data-field]');
    if (box === null) throw new Error('no field');
    point('pointerdown', field, at(box, [150, 110]));
    await expect.poll(() => linesOf(opened)).toMatchObject([{ item: 'S-13', to: 'L' }]);
    await userEvent.click(button('Into Common box'));
    await expect.poll(() => bagOf(/^S-13, /)).toBe('C');
    await userEvent.click(button('Turn'));
    await userEvent.click(button('Set down'));
    await expect.poll(() => linesOf(opened)).toMatchObject([{ item: 'S-13', to: 'C', turned: true }]);
    await userEvent.click(button('Lay all out by itself'));
    await expect.poll(() => linesOf(opened)).toEqual([]);
    await expect.poll(() => bagOf(/^S-13, /)).toBe('L');
  });
});

describe('what was laid by hand', () => {
  const laid = { item: 'S-13', bag: 'L', to: 'C', xMm: 10, yMm: 120, turned: false };
  async function lay(opened: Awaited<ReturnType<typeof openBag>>, lines: object[]) {
    const outing = (await byCode(opened.store, 'outings')).get('o');
    if (outing === undefined) throw new Error('no outing');
    const bagMap = lines as NonNullable<typeof outing.bagMap>;
    await opened.store.commit({
      ...{ action: 'lay-out-bag', title: 'Lay' },
      proposals: [{ table: 'outings', put: { ...outing, bagMap } }],
    });
  }

  it('is one act of the history, undone and done again', async () => {
    const opened = await openBag();
    await expectOneAct(opened.store, 'Lay S-13 in the bag', ['outings'], async () => {
      await userEvent.click(socket());
      await userEvent.click(button('Into Common box'));
      await expect.poll(() => linesOf(opened)).toHaveLength(1);
    });
  });

  it('stays with the task and does not make its plan another one', async () => {
    const opened = await openBag();
    const hash = opened.session.state().atHand?.planHash;
    await lay(opened, [laid]);
    await expect.poll(() => bagOf(/^S-13, /)).toBe('C');
    expect(opened.session.state().atHand?.planHash).toBe(hash);
    expect(opened.session.state().result).not.toBeNull();
  });

  it('falls back with a word where the new plan has it no more', async () => {
    const opened = await openBag();
    await lay(opened, [laid, { ...laid, item: 'X-150' }, { ...laid, item: 'T-07', bag: 'C', to: 'Z' }]);
    await expect
      .element(status())
      .toHaveTextContent(
        'Laid by hand before, lies by itself now: this plan does not pack it there: X-150; Second’s bag does not take T-07 any more.',
      );
    expect(bagOf(/^T-07, /)).toBe('C');
  });
});

describe('the drawing', () => {
  it('says what is to scale and what is assumed, and has all of it as a table', async () => {
    await openBag();
    const map = page.getByRole('figure', { name: 'Bag map of outing o' });
    await expect.element(map.getByText(/As long as the longest piece the bag takes: Lead’s bag 300 mm/)).toBeVisible();
    await expect.element(map.getByText(/Size not given, drawn at a guess: W-10/)).toBeVisible();
    await userEvent.click(map.getByText('As table'));
    await expect.element(map.getByRole('row', { name: /S-13 Socket 13 mm/ })).toHaveTextContent(/53 mm × 20 mm/);
    await expect.element(map.getByRole('row', { name: /W-10/ })).toHaveTextContent(/size assumed/);
  });

  it('has one scale: a socket of 53 mm is 53 of the bag’s 300 mm long', async () => {
    await openBag();
    const field = document.querySelector('[data-bag="L"] [data-field]')?.getBoundingClientRect().width ?? 0;
    const drawn = socket().element().querySelector('path')?.getBoundingClientRect().width ?? 0;
    // The outline's own line adds a pixel and a half.
    expect(Math.abs(drawn / field - 53 / 300)).toBeLessThan(0.012);
  });

  it('has targets of at least 24 px each way', async () => {
    await openBag();
    const sizes = [...document.querySelectorAll('[data-block] > rect')].map((rect) => rect.getBoundingClientRect());
    expect(sizes).toHaveLength(4);
    expect(sizes.filter(({ width, height }) => width < 24 || height < 24)).toEqual([]);
  });

  it('says so where nothing is taken', async () => {
    const opened = await openTask(mapSource, '#/bag');
    const { planHash } = opened.session.state().atHand ?? { planHash: '' };
    const result = { ...mapResult, outings: [{ id: 'o', massKg: 0, items: [], steps: [] }] };
    const plannedAt = new Date().toISOString();
    opened.session.keepResult(planHash, { minimised: 'mass', timeLimitS: null, plannedAt, result });
    await expect.element(page.getByText('No piece is taken on this outing.')).toBeVisible();
  });

  it('axe knows no fault of it, at rest and with a piece in hand', async () => {
    await openBag();
    expect(await axeFaults()).toEqual([]);
    focusPiece(/^S-13, /);
    await userEvent.keyboard('{Enter}{PageDown}');
    expect(await axeFaults()).toEqual([]);
  });
});
