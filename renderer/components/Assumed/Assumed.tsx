import './Assumed.css';

/** What is taken for granted beside a value, one sentence each; begins with the word. */
export function Assumed({ what }: { what: string[] }) {
  const [only] = what;
  if (only === undefined) return null;
  return (
    <div className="bw-assumed">
      {what.length === 1 ? (
        <p>
          <b>Assumed:</b> {only}
        </p>
      ) : (
        <>
          <b>Assumed:</b>
          <ul>
            {what.map((sentence) => (
              <li key={sentence}>{sentence}</li>
            ))}
          </ul>
        </>
      )}
    </div>
  );
}
