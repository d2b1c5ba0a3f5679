import type { RefObject } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import { between, shifted, type TimeSpan, zoomed } from './timeSpan.ts';

/** What a hand on a plot over time works on. */
export type TimeHand = {
  readonly span: TimeSpan;
  readonly whole: TimeSpan;
  /** Where the drawing begins and ends across its element [CSS px]. */
  readonly leftPx: number;
  readonly rightPx: number;
  /** While the hand moves. */
  readonly onMove: (span: TimeSpan) => void;
  /** When it rests: this is what the address keeps. */
  readonly onRest: (span: TimeSpan) => void;
  /** A stretch that is being marked, from edge to edge; null: none. */
  readonly onMark: (stretch: TimeSpan | null) => void;
};

/** A shorter drag is a click [CSS px]. */
const LEAST_DRAG_PX = 6;
/** So long after the last turn of the wheel it rests [ms]. */
const WHEEL_REST_MS = 250;
/** A turn of the wheel by one notch, about 100 px, is a sixth closer. */
const WHEEL_PX_PER_E = 600;

/** One drawing's gestures: drag marks a stretch, shift or a finger moves, two fingers or Ctrl and the wheel look closer. */
class Gestures {
  private readonly fingers = new Map<number, number>();
  private markedFromS: number | null = null;
  private movedFrom: { readonly atPx: number; readonly span: TimeSpan } | null = null;
  private moved: TimeSpan | null = null;
  private restTimer = 0;

  constructor(
    private readonly element: SVGSVGElement,
    private readonly hand: RefObject<TimeHand>,
  ) {}

  listen(): () => void {
    const { element } = this;
    const ended = new AbortController();
    const { signal } = ended;
    element.addEventListener('pointerdown', (event) => this.down(event), { signal });
    element.addEventListener('pointermove', (event) => this.move(event), { signal });
    element.addEventListener('pointerup', (event) => this.up(event), { signal });
    element.addEventListener('pointercancel', (event) => this.up(event), { signal });
    element.addEventListener('wheel', (event) => this.wheel(event), { signal, passive: false });
    element.addEventListener('dblclick', () => this.use((hand) => hand.onRest(hand.whole)), { signal });
    return () => {
      ended.abort();
      clearTimeout(this.restTimer);
    };
  }

  private use(work: (hand: TimeHand) => void): void {
    if (this.hand.current !== null) work(this.hand.current);
  }

  /** Moment under a place of the screen, within the span [s]. */
  private timeAt(clientX: number, { span, leftPx, rightPx }: TimeHand): number {
    const across = clientX - this.element.getBoundingClientRect().left;
    const share = Math.min(1, Math.max(0, (across - leftPx) / (rightPx - leftPx)));
    return span[0] + share * (span[1] - span[0]);
  }

  private down(event: PointerEvent): void {
    if (event.pointerType === 'mouse' && event.button !== 0) return;
    this.use((hand) => {
      this.element.setPointerCapture(event.pointerId);
      if (event.pointerType === 'touch') {
        this.fingers.set(event.pointerId, event.clientX);
        this.movedFrom = { atPx: this.middlePx(), span: hand.span };
      } else if (event.shiftKey) this.movedFrom = { atPx: event.clientX, span: hand.span };
      else this.markedFromS = this.timeAt(event.clientX, hand);
    });
  }

  private middlePx(): number {
    const places = [...this.fingers.values()];
    return places.reduce((sum, place) => sum + place, 0) / Math.max(1, places.length);
  }

  /** How far apart the fingers are; one alone: 1. */
  private spreadPx(): number {
    const places = [...this.fingers.values()];
    return places.length < 2 ? 1 : Math.max(20, Math.max(...places) - Math.min(...places));
  }

  private move(event: PointerEvent): void {
    this.use((hand) => {
      if (this.markedFromS !== null) {
        hand.onMark([this.markedFromS, this.timeAt(event.clientX, hand)]);
      } else if (this.fingers.has(event.pointerId)) {
        const [spread, middle] = [this.spreadPx(), this.middlePx()];
        this.fingers.set(event.pointerId, event.clientX);
        const factor = spread / this.spreadPx();
        const wider = zoomed(this.moved ?? hand.span, hand.whole, factor, this.timeAt(middle, hand));
        this.shiftBy(hand, wider, middle - this.middlePx());
      } else if (this.movedFrom !== null) {
        this.shiftBy(hand, this.movedFrom.span, this.movedFrom.atPx - event.clientX);
      }
    });
  }

  private shiftBy(hand: TimeHand, span: TimeSpan, byPx: number): void {
    const secondsPerPx = (span[1] - span[0]) / (hand.rightPx - hand.leftPx);
    this.moved = shifted(span, hand.whole, byPx * secondsPerPx);
    hand.onMove(this.moved);
  }

  private up(event: PointerEvent): void {
    this.use((hand) => {
      this.fingers.delete(event.pointerId);
      if (this.markedFromS !== null) {
        const toS = this.timeAt(event.clientX, hand);
        const secondsPerPx = (hand.span[1] - hand.span[0]) / (hand.rightPx - hand.leftPx);
        hand.onMark(null);
        if (event.type === 'pointerup' && Math.abs(toS - this.markedFromS) > LEAST_DRAG_PX * secondsPerPx) {
          hand.onRest(between(this.markedFromS, toS, hand.whole));
        }
        this.markedFromS = null;
      }
      if (this.fingers.size === 0) {
        if (this.moved !== null) hand.onRest(this.moved);
        this.moved = null;
        this.movedFrom = null;
      }
    });
  }

  /** A wheel alone turns the page; with Ctrl it looks closer, with Shift, or turned sideways, it moves. */
  private wheel(event: WheelEvent): void {
    const isSideways = event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY);
    if (!event.ctrlKey && !event.metaKey && !isSideways) return;
    this.use((hand) => {
      event.preventDefault();
      const span = this.moved ?? hand.span;
      if (isSideways) this.shiftBy(hand, span, event.deltaX === 0 ? event.deltaY : event.deltaX);
      else {
        this.moved = zoomed(
          span,
          hand.whole,
          Math.exp(event.deltaY / WHEEL_PX_PER_E),
          this.timeAt(event.clientX, hand),
        );
        hand.onMove(this.moved);
      }
      clearTimeout(this.restTimer);
      this.restTimer = window.setTimeout(() => {
        if (this.moved !== null) this.use(({ onRest }) => onRest(this.moved ?? hand.span));
        this.moved = null;
      }, WHEEL_REST_MS);
    });
  }
}

/** Lets a hand, fingers or the wheel choose the span of a drawing over time. */
export function useTimeGestures(hand: TimeHand): RefObject<SVGSVGElement | null> {
  const element = useRef<SVGSVGElement>(null);
  const latest = useRef<TimeHand>(hand);
  latest.current = hand;
  useEffect(() => (element.current === null ? undefined : new Gestures(element.current, latest).listen()), []);
  return element;
}
