/** Line drawings of the first page's doors. Pictures of what lies behind them, not to any scale. */

/** A bag laid open. */
export function BagPicture() {
  return (
    <svg viewBox="0 0 376 204" aria-hidden="true">
      <g transform="translate(66 16)">
        <path
          className="edge sheet"
          d="M8 0H235.2Q243.2 0 243.2 8V177.6Q243.2 185.6 235.2 185.6H8Q0 185.6 0 177.6V8Q0 0 8 0ZM102 0V-8Q102 -14 108 -14H135Q141 -14 141 -8V0"
        />
        <path
          className="seam"
          d="M7.7 23H235.5V65.3H7.7ZM7.7 73H151V133H7.7ZM158.7 73H235.5V133H158.7ZM7.7 140.8H235.5V178H7.7Z"
        />
        <g className="part" transform="scale(0.64)">
          <path d="M39 49H137Q142 49 142 54V70Q142 75 137 75H39Q34 75 34 70V54Q34 49 39 49ZM142 52H186.6V72H142ZM186.6 55H320.2V69H186.6ZM320.2 55L330 43H344Q352 43 352 51V73Q352 81 344 81H330L320.2 69Z" />
          <path
            className="thin"
            d="M44 49V75M60 49V75M69 49V75M78 49V75M87 49V75M96 49V75M105 49V75M114 49V75M123 49V75M332 57H342V67H332Z"
          />
          <path d="M24 132H37.3V144H24ZM37.3 134H110.7V142H37.3ZM110.7 133.2H119.4V142.8H110.7ZM119.4 134.8H126V141.2H119.4Z" />
          <path d="M146 132H156L157.5 129.8H171V146.2H157.5L156 144H146ZM192 129H212V147H192ZM212 133.3H222V142.7H212Z" />
          <path d="M24 178H116L124 167H142L148 175H135V193H148L142 201H124L116 190H24Z" />
          {[274, 304].map((x) => (
            <Ring key={x} x={x} y={140} />
          ))}
          {[267, 294.4, 321.8, 349.2].map((x) => (
            <Ring key={x} x={x} y={174} />
          ))}
          {[60, 124, 188].map((x) => (
            <path
              key={x}
              d={`M${x - 15} 250a15 15 0 1 0 30 0a15 15 0 1 0 -30 0M${x - 10} 250a10 10 0 1 0 20 0a10 10 0 1 0 -20 0M${x + 15} 246h10v8h-10M${x - 15} 246h-10v8h10`}
            />
          ))}
        </g>
      </g>
    </svg>
  );
}

function Ring({ x, y }: { x: number; y: number }) {
  return (
    <>
      <circle cx={x} cy={y} r="12" />
      <circle cx={x} cy={y} r="8.6" />
    </>
  );
}
