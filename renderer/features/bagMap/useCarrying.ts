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
import { carriedBy, carriedOn, carriedTurned, findBlock, neighbour, pickedUp, setDown, within } from './carrying.ts';
import { heldText, refusedText } from './mapWords.ts';

export interface CarryingInput {
  plan: ResolvedPlan;
  /** The outing as its lines lie. */
  answer: BagOuting;
  layout: MapLayout;
  standing: Standing;
  pxPerMm: number;
  units: UnitsShown;
  onSelect: (item: string, bag: string) => void;
  onLay: (line: LaidLine) => void;
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
  /** At once into another bag, where room is found for it. */
  place: (carried: CarriedBlock) => boolean;
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
  const inHand = carried !== null && findBlock(layout, carried.key) !== null ? carried : null;

  const select = (key: string): void => {
    const found = findBlock(layout, key);
    if (found !== null) onSelect(found.laid.block.item, found.bag.bag.id);
  };
  const name = (key: string): string => findBlock(layout, key)?.laid.block.item ?? '';
  const hold = (next: CarriedBlock): void => {
    setCarried(next);
    say({ text: `${name(next.key)}: ${heldText(plan, next, units)}.`, refused: false });
  };
  const place = useCallback((held: CarriedBlock): boolean => {
    const { plan: atHand, answer, layout: laid, standing, units: shown, onLay: lay, onSelect: take } = now.current;
    const item = findBlock(laid, held.key)?.laid.block.item ?? '';
    const down = setDown({ plan: atHand, answer, layout: laid, standing }, held);
    if (down.kind === 'refused') {
      say({ text: `${item} stays where it was. ${refusedText(atHand, laid, down.refused, shown)}`, refused: true });
      return false;
    }
    if (down.kind === 'laid') {
      lay(down.line);
      // The line in hand stays in hand, wherever it lies now.
      take(item, held.bag);
    }
    const where = heldText(atHand, held, shown);
    say({ text: down.kind === 'same' ? `${item} lies where it lay.` : `${item} set down: ${where}.`, refused: false });
    return true;
  }, []);
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
    const next = pickedUp(layout, key);
    if (next === null) return;
    select(key);
    setCarried(next);
    say({ text: `${name(key)} picked up: ${heldText(plan, next, units)}.`, refused: false });
  };

  useFocusOn(inHand);

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
    const start = pickedUp(layout, block.key);
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
      const held = inHand?.key === key ? inHand : pickedUp(layout, key);
      if (held !== null) hold(carriedBy(layout, held, acrossMm, downMm));
    },
    turn(key) {
      const held = inHand?.key === key ? inHand : pickedUp(layout, key);
      if (held !== null) hold(carriedTurned(layout, held));
    },
    place,
    onPointerDown,
    onKeyDown,
    onPlace,
  };
}

/** A block taken up, or drawn in another bag, is another element: the focus goes along with it. */
function useFocusOn(carried: CarriedBlock | null): void {
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
    // Only where the focus was lost with the element: a button beneath the bags keeps its own.
    if (active === null || active === document.body) focusBlock(changed.key);
  }, [bag, key]);
}

function focusBlock(key: string): void {
  for (const element of document.querySelectorAll<SVGGElement>('[data-block]'))
    if (element.dataset['block'] === key) element.focus({ preventScroll: false });
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
