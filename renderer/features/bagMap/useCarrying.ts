import { useCallback, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { KeyboardEvent, PointerEvent } from 'react';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { MapBlock } from '../../engine/bagMap/mapBlocks.ts';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { Standing } from '../../engine/bagMap/standing.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { CarriedBlock } from '../../components/BagMap/MapBag.tsx';
import {
  carriedBy,
  carriedOn,
  carriedTurned,
  countWithin,
  findBlock,
  neighbour,
  pickedUp,
  pocketUnder,
  setDown,
  togetherAgain,
  within,
} from './carrying.ts';
import { heldText, refusedText, takenText } from './mapWords.ts';

export interface CarryingInput {
  plan: ResolvedPlan;
  /** The outing as its lines lie. */
  answer: BagOuting;
  layout: MapLayout;
  standing: Standing;
  pxPerMm: number;
  units: UnitsShown;
  /** The block that is in hand from now on, with its item and its bag. */
  onSelect: (item: string, bag: string, key: string) => void;
  /** What lies elsewhere from now on, as one act. */
  onLay: (lines: readonly LaidLine[], title: string) => void;
  /** Pieces that lay apart lie with the rest of their line again, as one act. */
  onTogether: (block: MapBlock, title: string) => void;
}

export interface Said {
  text: string;
  refused: boolean;
}

export interface Carrying {
  carried: CarriedBlock | null;
  said: Said;
  say: (said: Said) => void;
  toggle: (key: string) => void;
  leave: () => void;
  /** With the tools beneath: picks up, moves, and stays in the hand. */
  nudge: (key: string, acrossMm: number, downMm: number) => void;
  turn: (key: string) => void;
  /** Picks up, and holds it over the next bag. */
  overNext: (key: string) => void;
  /** How many pieces of a block are taken, or would be. */
  takenOf: (block: MapBlock) => number;
  take: (key: string, pieces: number) => void;
  /** At once to another place, where room is found for it. */
  drop: (carried: CarriedBlock) => void;
  /** Pieces that lie apart go back to the rest of their line. */
  together: (key: string) => void;
  onPointerDown: (block: MapBlock, event: PointerEvent<SVGGElement>) => void;
  onKeyDown: (block: MapBlock, event: KeyboardEvent<SVGGElement>) => void;
  /** A press on a bag sets down there what is in the hand. */
  onPlace: (bag: string, event: PointerEvent<SVGSVGElement>) => void;
}

const stepMm = 10;
const fineMm = 1;
/** A pointer that moves less than this has pressed, not dragged. */
const dragPx = 4;

const nothingSaid: Said = { text: '', refused: false };

/** Taking a block up, over a bag and down again, by keys or by pointer. */
export function useCarrying(input: CarryingInput): Carrying {
  const { plan, layout, units, onSelect } = input;
  const now = useRef(input);
  useLayoutEffect(() => {
    now.current = input;
  });
  const [carried, setCarried] = useState<CarriedBlock | null>(null);
  const [said, say] = useState<Said>(nothingSaid);
  const [taken, setTaken] = useState<{ key: string; pieces: number } | null>(null);
  const inHand = carried !== null && findBlock(layout, carried.key) !== null ? carried : null;
  const land = useFocusOn(inHand);

  const select = (key: string): void => {
    const found = findBlock(layout, key);
    if (found !== null) onSelect(found.laid.block.item, found.bag.bag.id, key);
  };
  const askedOf = (key: string): number => (taken?.key === key ? taken.pieces : Infinity);
  const takenOf = (block: MapBlock): number =>
    inHand?.key === block.key ? inHand.pieces : countWithin(block, askedOf(block.key));
  const what = ({ key, pieces }: CarriedBlock): string => {
    const found = findBlock(layout, key);
    return found === null ? '' : takenText(found.laid.block, pieces);
  };
  const name = (key: string): string => findBlock(layout, key)?.laid.block.item ?? '';
  const hold = (next: CarriedBlock): void => {
    setCarried(next);
    say({ text: `${what(next)}: ${heldText(plan, next, units, pocketUnder(layout, next)?.name)}.`, refused: false });
  };
  const place = useCallback(
    (held: CarriedBlock): boolean => {
      const { plan: atHand, answer, layout: laid, standing, units: shown, onLay: lay, onSelect: take } = now.current;
      const block = findBlock(laid, held.key)?.laid.block;
      const item = block?.item ?? '';
      const words = block === undefined ? '' : takenText(block, held.pieces);
      const down = setDown({ plan: atHand, answer, layout: laid, standing }, held);
      if (down.kind === 'refused') {
        say({ text: `${words} stays where it was. ${refusedText(atHand, laid, down.refused, shown)}`, refused: true });
        return false;
      }
      if (down.kind === 'laid') {
        lay(down.lines, `Lay ${words} in the bag`);
        land(down.key);
        setTaken(null);
        // The line in hand stays in hand, wherever it lies now.
        take(item, held.bag, down.key);
      }
      const where = heldText(atHand, held, shown, pocketUnder(laid, held)?.name);
      say({
        text: down.kind === 'same' ? `${item} lies where it lay.` : `${words} set down: ${where}.`,
        refused: false,
      });
      return true;
    },
    [land],
  );
  const drop = (held: CarriedBlock): void => {
    if (place(held)) setCarried(null);
  };
  const leave = (): void => {
    if (inHand === null) return;
    say({ text: `${name(inHand.key)} put back where it was.`, refused: false });
    setCarried(null);
  };
  const toggle = (key: string): void => {
    if (inHand?.key === key) {
      drop(inHand);
      return;
    }
    const up = pickedUp(layout, key, askedOf(key));
    const block = findBlock(layout, key)?.laid.block;
    if (up === null || block === undefined) return;
    // Beside what stays, so that both are seen.
    const next = up.pieces < block.quantity ? carriedBy(layout, up, stepMm, stepMm) : up;
    select(key);
    setCarried(next);
    say({
      text: `${what(next)} picked up: ${heldText(plan, next, units, pocketUnder(layout, next)?.name)}.`,
      refused: false,
    });
  };
  const take = (key: string, pieces: number): void => {
    const found = findBlock(layout, key);
    if (found === null) return;
    const { block } = found.laid;
    const count = countWithin(block, pieces);
    if (inHand?.key === key) hold(within(layout, { ...inHand, pieces: count }));
    else {
      setTaken({ key, pieces: count });
      say({ text: `${takenText(block, count)} is what will be taken.`, refused: false });
    }
  };
  const together = (key: string): void => {
    const { plan: atHand, answer, layout: laid, standing, units: shown, onTogether } = now.current;
    const block = findBlock(laid, key)?.laid.block;
    if (block === undefined || block.part === null) return;
    const words = `${block.quantity} × ${block.item}`;
    const refused = togetherAgain({ plan: atHand, answer, layout: laid, standing }, key);
    if (refused !== null) {
      say({ text: `${words} stays apart. ${refusedText(atHand, laid, refused, shown)}`, refused: true });
      return;
    }
    onTogether(block, `Lay ${words} with the rest again`);
    setCarried(null);
    say({ text: `${words} lies with the rest of its line again.`, refused: false });
  };

  const moves: Record<string, [number, number]> = {
    ArrowLeft: [-1, 0],
    ArrowRight: [1, 0],
    ArrowUp: [0, -1],
    ArrowDown: [0, 1],
  };
  const onKeyDown = (block: MapBlock, event: KeyboardEvent<SVGGElement>): void => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const { key } = event;
    const move = moves[key];
    const handled = (): void => {
      event.preventDefault();
      event.stopPropagation();
    };
    if (key === 'Enter' || key === ' ') {
      handled();
      toggle(block.key);
    } else if ((key === '+' || key === '-' || key === '−') && block.quantity > 1) {
      handled();
      take(block.key, takenOf(block) + (key === '+' ? 1 : -1));
    } else if (inHand?.key === block.key) {
      if (move !== undefined) {
        handled();
        const by = event.shiftKey ? fineMm : stepMm;
        hold(carriedBy(layout, inHand, move[0] * by, move[1] * by));
      } else if (key === 'PageDown' || key === 'PageUp') {
        handled();
        hold(carriedOn(layout, inHand, key === 'PageDown' ? 1 : -1));
      } else if (key === 't' || key === 'T') {
        handled();
        hold(carriedTurned(layout, inHand));
      } else if (key === 'Escape') {
        handled();
        leave();
      }
    } else if (move !== undefined) {
      handled();
      const next = neighbour(layout, block.key, move[0] + move[1] > 0 ? 'next' : 'before');
      if (next === null) return;
      select(next);
      focusBlock(next);
    }
  };

  const onPointerDown = (block: MapBlock, event: PointerEvent<SVGGElement>): void => {
    if (event.button !== 0) return;
    // Another one in the hand is set down where this one was pressed: the bag beneath does that.
    if (inHand !== null && inHand.key !== block.key) return;
    event.stopPropagation();
    const start = pickedUp(layout, block.key, askedOf(block.key));
    if (start === null) return;
    const isTouch = event.pointerType === 'touch';
    const from = { x: event.clientX, y: event.clientY };
    const selectedBefore = event.currentTarget.getAttribute('aria-pressed') === 'true';
    let dragged: CarriedBlock | null = null;
    event.currentTarget.focus({ preventScroll: true });
    // Before it is in hand, a finger that moves scrolls the page.
    const mayDrag = !isTouch || selectedBefore;
    const move = (at: globalThis.PointerEvent): void => {
      if (dragged === null && Math.hypot(at.clientX - from.x, at.clientY - from.y) < dragPx) return;
      if (!mayDrag) return;
      const { layout: laid, pxPerMm: scale } = now.current;
      const over = bagUnder(at, start.bag);
      const home = fieldOf(start.bag);
      const field = fieldOf(over);
      if (home === null || field === null) return;
      const [homeBox, box] = [home.getBoundingClientRect(), field.getBoundingClientRect()];
      const pieceX = homeBox.left + start.xMm * scale + (at.clientX - from.x);
      const pieceY = homeBox.top + start.yMm * scale + (at.clientY - from.y);
      dragged = within(laid, {
        ...start,
        bag: over,
        xMm: (pieceX - box.left) / scale,
        yMm: (pieceY - box.top) / scale,
      });
      setCarried(dragged);
    };
    const end = (done: boolean): void => {
      window.removeEventListener('pointermove', move);
      window.removeEventListener('pointerup', up);
      window.removeEventListener('pointercancel', stop);
      window.removeEventListener('keydown', escape, true);
      if (dragged === null) {
        if (done) select(block.key);
        return;
      }
      if (done) place(dragged);
      else say({ text: `${block.item} put back where it was.`, refused: false });
      setCarried(null);
    };
    const up = (): void => end(true);
    const stop = (): void => end(false);
    const escape = (pressed: globalThis.KeyboardEvent): void => {
      if (pressed.key !== 'Escape') return;
      pressed.preventDefault();
      pressed.stopPropagation();
      end(false);
    };
    window.addEventListener('pointermove', move);
    window.addEventListener('pointerup', up);
    window.addEventListener('pointercancel', stop);
    window.addEventListener('keydown', escape, true);
  };

  const onPlace = (bag: string, event: PointerEvent<SVGSVGElement>): void => {
    if (inHand === null || event.button !== 0) return;
    const box = fieldOf(bag)?.getBoundingClientRect();
    if (box === undefined) return;
    const xMm = (event.clientX - box.left) / input.pxPerMm;
    const yMm = (event.clientY - box.top) / input.pxPerMm;
    drop(within(layout, { ...inHand, bag, xMm, yMm }));
  };

  return {
    carried: inHand,
    said,
    say,
    toggle,
    leave,
    nudge(key, acrossMm, downMm) {
      const held = inHand?.key === key ? inHand : pickedUp(layout, key, askedOf(key));
      if (held !== null) hold(carriedBy(layout, held, acrossMm, downMm));
    },
    turn(key) {
      const held = inHand?.key === key ? inHand : pickedUp(layout, key, askedOf(key));
      if (held !== null) hold(carriedTurned(layout, held));
    },
    overNext(key) {
      const held = inHand?.key === key ? inHand : pickedUp(layout, key, askedOf(key));
      if (held !== null) hold(carriedOn(layout, held, 1));
    },
    takenOf,
    take,
    drop,
    together,
    onPointerDown,
    onKeyDown,
    onPlace,
  };
}

/** A block taken up, or drawn in another bag, is another element: the focus goes along with it. */
function useFocusOn(carried: CarriedBlock | null): (key: string) => void {
  const landed = useRef<string | null>(null);
  const bag = carried?.bag;
  const key = carried?.key;
  const before = useRef<{ key: string; bag: string } | null>(null);
  useEffect(() => {
    const last = before.current;
    const next = key === undefined || bag === undefined ? null : { key, bag };
    before.current = next;
    const changed = next ?? last;
    if (changed === null || (next?.bag === last?.bag && next?.key === last?.key)) return;
    const active = document.activeElement;
    // What was set down apart is a block of its own.
    const to = next === null ? (landed.current ?? changed.key) : changed.key;
    if (next === null) landed.current = null;
    // Only where the focus was lost with the element, or lies on what stayed: a button beneath the bags keeps its own.
    const stayed = active instanceof SVGElement && active.dataset['block'] === changed.key;
    if (active === null || active === document.body || stayed) focusBlock(to);
  }, [bag, key]);
  /** Called with the block that is set down, where it is another than was picked up. */
  return useCallback((set: string) => {
    landed.current = set;
  }, []);
}

function focusBlock(key: string): void {
  const own = [...document.querySelectorAll<SVGGElement>('[data-block]')].filter(
    (element) => element.dataset['block'] === key,
  );
  // Of pieces picked up from others, those in the hand.
  const found = own.find((element) => element.dataset['carried'] !== undefined) ?? own[0];
  found?.focus({ preventScroll: false });
}

/** A bag's field alone, without its strap. */
function fieldOf(bag: string): Element | null {
  for (const field of document.querySelectorAll<SVGSVGElement>('[data-bag]'))
    if (field.dataset['bag'] === bag) return field.querySelector('[data-field]');
  return null;
}

function bagUnder({ clientX, clientY }: globalThis.PointerEvent, otherwise: string): string {
  for (const field of document.querySelectorAll<SVGSVGElement>('[data-bag]')) {
    const { left, right, top, bottom } = field.getBoundingClientRect();
    if (clientX >= left && clientX <= right && clientY >= top && clientY <= bottom)
      return field.dataset['bag'] ?? otherwise;
  }
  return otherwise;
}
