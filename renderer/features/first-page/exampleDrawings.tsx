/** Line drawings of the worked examples. Pictures of what they are about, not to any scale. */

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
