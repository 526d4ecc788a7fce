/** A bar against a box, to scale: what is applied against where it must lie. It says nothing that no word beside it says. */
export function BandBar({
  box,
  bar,
  said,
}: {
  box: { min: number; max: number };
  bar: { min: number; max: number };
  said: string;
}) {
  const width = box.max - box.min || box.max * 0.02 || 1;
  const from = Math.min(box.min, bar.min) - width * 0.25;
  const to = Math.max(box.max, bar.max) + width * 0.25;
  const px = (value: number): number => ((value - from) / (to - from)) * 110;
  const inside = bar.min >= box.min * (1 - 1e-9) && bar.max <= box.max * (1 + 1e-9);
  return (
    <svg className="bw-bandbar" viewBox="0 0 110 18" width="110" height="18" role="img" aria-label={said}>
      <path className="bw-bandbar-axis" d="M0 9H110" />
      <rect
        className="bw-bandbar-box"
        x={px(box.min)}
        y="3"
        width={Math.max(1, px(box.max) - px(box.min))}
        height="12"
      />
      <rect
        className={inside ? 'bw-bandbar-in' : 'bw-bandbar-out'}
        x={px(bar.min)}
        y="6"
        width={Math.max(2, px(bar.max) - px(bar.min))}
        height="6"
      />
      <path className="bw-bandbar-limit" d={`M${px(box.min)} 1V17M${px(box.max)} 1V17`} />
    </svg>
  );
}
