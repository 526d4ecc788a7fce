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

/** A light on its rock, with the lamp platform. */
export function LightPicture() {
  return (
    <svg viewBox="0 0 376 204" aria-hidden="true">
      <path className="edge part-fill" d="M84 202L96 182H148L164 172H224L240 184L262 190L276 202" />
      <path className="thin" d="M12 190H92M268 190H364M288 196H306M30 196H44" />
      <path className="edge sheet" d="M172 172L179 62H209L216 172Z" />
      <path className="thin" d="M173.4 150H214.6M174.8 128H213.2M176.2 106H211.8M177.6 84H210.4" />
      <path className="thin" d="M188 172V152H200V172" />
      <path className="edge part-fill" d="M166 62V58H222V62Z" />
      <path className="thin" d="M167 58V46H221V58M167 52H221M176 58V46M185 58V46M203 58V46M212 58V46" />
      <path className="edge hand" d="M187 58V49H201V58Z" />
      <path className="edge sheet" d="M183 46V26H205V46M181 26L194 14L207 26Z" />
      <path className="thin" d="M188 26V46M194 26V46M200 26V46" />
      <path className="chain" d="M194 6V182" />
      <path className="edge" d="M170 58V34Q170 28 162 28H146" />
      <path className="thin" d="M147 28L128 176" />
      <path className="edge sheet" d="M116 176H134V182H116Z" />
      <path className="chain" d="M221 48L232 120L228 184" />
      <path className="thin" d="M60 58H160M60 182H112M66 58V182M63 66L66 58L69 66M63 174L66 182L69 174" />
    </svg>
  );
}

/** A mast with its instrument, held by stays. */
export function MastPicture() {
  return (
    <svg viewBox="0 0 376 204" aria-hidden="true">
      <path className="edge part-fill" d="M40 202Q110 184 170 188H214Q280 190 340 202" />
      <path className="thin" d="M188 34L82 194M188 34L298 194M188 96L122 190M188 96L258 190" />
      <path className="edge sheet" d="M184 188V24H196V188Z" />
      <path className="thin" d="M184 168L196 148L184 128L196 108L184 88L196 68L184 48" />
      <path className="edge sheet" d="M150 24H230V34H150Z" />
      <path className="edge hand" d="M160 10H178V24H160Z" />
      <path className="edge part-fill" d="M196 6H220V24H196Z" />
      <path className="thin" d="M202 6V24M208 6V24M214 6V24" />
      <path className="edge" d="M150 29H128M230 29H252" />
      <circle className="edge sheet" cx="122" cy="29" r="6" />
      <circle className="edge sheet" cx="258" cy="29" r="6" />
      <path className="chain" d="M190 2V200" />
      <path className="edge sheet" d="M222 178H250V190H222Z" />
      <path className="thin" d="M232 178V174H240V178" />
      <path className="thin" d="M330 34H240M330 188H300M324 34V188M321 42L324 34L327 42M321 180L324 188L327 180" />
    </svg>
  );
}
