/** Line drawings of the first page's doors: a stack in its hole, a shelf of parts. Not to any scale. */

/** A string of parts which reaches a bolt at the bottom of a hole. */
export function StackPicture() {
  return (
    <svg viewBox="0 0 376 204" aria-hidden="true">
      <defs>
        <pattern id="door-host" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path className="thin" d="M0 0V7" />
        </pattern>
        <pattern id="door-wall" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(-45)">
          <path className="thin" d="M0 0V6" />
        </pattern>
      </defs>
      <g className="host">
        <path d="M150 26V66H214V72H310V26ZM150 174V134H214V128H310V174Z" />
        <path className="wall" d="M310 89H356V26H310ZM310 111H356V174H310Z" />
      </g>
      <path className="edge" d="M150 26V66H214V72H310V26M150 174V134H214V128H310V174M310 89H356V26M310 111H356V174" />
      <path className="edge" d="M310 89V26M310 111V174" />
      <path className="edge hand" d="M296 83H310V117H296ZM310 90H350V110H310Z" />
      <path className="edge part-fill" d="M216 82H246L252 78H306V122H252L246 118H216Z" />
      <path className="edge part-fill" d="M96 88H216V112H96ZM72 81H96V119H72Z" />
      <path className="edge sheet" d="M20 132V74L30 60V16l14 -6l8 10l10 -4V60L72 74V132Z" />
      <path className="chain" d="M6 100H372" />
      <path className="thin" d="M150 176V196M306 124V196M150 192H306M158 189L150 192L158 195M298 189L306 192L298 195" />
    </svg>
  );
}

/** A shelf with sockets in their order, a wrench and extensions below. */
export function ShelfPicture() {
  return (
    <svg viewBox="0 0 376 204" aria-hidden="true">
      <path className="edge sheet" d="M24 12H352V192H24Z" />
      <path className="edge" d="M24 84H352M24 142H352" />
      {sockets.map(({ x, size }) => (
        <Socket key={x} x={x} size={size} />
      ))}
      <path
        className="edge part-fill"
        d="M44 108H128V128H44ZM128 112H216V124H128ZM216 106H246Q254 106 254 114V122Q254 130 246 130H216Z"
      />
      <path className="thin" d="M54 108V128M62 108V128M70 108V128M78 108V128M86 108V128M94 108V128" />
      <path className="edge hand" d="M229 112H241V124H229Z" />
      <path className="edge part-fill" d="M280 110H292V128H280ZM292 113H326V125H292ZM326 115H336V123H326Z" />
      <path className="edge part-fill" d="M44 160H56V180H44ZM56 163H176V177H56ZM176 165H186V175H176Z" />
      <path className="edge part-fill" d="M210 160H222V180H210ZM222 163H270V177H222ZM270 165H280V175H270Z" />
      <path className="edge part-fill" d="M304 164H316L320 160H334V180H320L316 176H304Z" />
    </svg>
  );
}

const sockets = [
  { x: 52, size: 20 },
  { x: 90, size: 23 },
  { x: 131, size: 26 },
  { x: 175, size: 30 },
  { x: 224, size: 34 },
  { x: 278, size: 39 },
];

/** Standing on its drive end, its six-point opening drawn above it. */
function Socket({ x, size }: { x: number; size: number }) {
  const half = size / 2;
  const top = 84 - size * 1.3;
  return (
    <>
      <path
        className="edge part-fill"
        d={`M${x - half} ${top}H${x + half}V${84 - size * 0.45}L${x + half * 0.78} 84H${x - half * 0.78}L${x - half} ${84 - size * 0.45}Z`}
      />
      <path
        className="thin"
        d={`M${x - half * 0.5} ${top}V${top + size * 0.55}M${x + half * 0.5} ${top}V${top + size * 0.55}`}
      />
    </>
  );
}
