import './recovery.css';

/** While journal and working copy are compared: within 10 s there is either the work or the reason. */
export function OpeningPage({ doing }: { doing: string }) {
  return (
    <main className="bw-opening">
      <p role="status">{doing}…</p>
    </main>
  );
}
