import { useEffect, useState } from 'react';
import { createRoot } from 'react-dom/client';
import type { Estimate } from '../../src/index.js';
import { type DeskDocuments, readDocuments } from './desk-documents.js';
import { Sheet } from './react-sheet.js';

/** A page that draws itself again every second, for its clock, and passes the sheet what the sheet has told it. */
function Desk({ catalogue, rates, estimates }: DeskDocuments) {
  const [estimate, setEstimate] = useState<Estimate | null>(estimates[0]!);
  const [total, setTotal] = useState('');
  const [saved, setSaved] = useState('');
  const [now, setNow] = useState(new Date());
  useEffect(() => {
    const timer = setInterval(() => setNow(new Date()), 1000);
    return () => clearInterval(timer);
  }, []);
  return (
    <>
      <div className="host">
        {estimates.map((one) => (
          <button key={one.id} onClick={() => setEstimate(one)}>
            Open {one.number}
          </button>
        ))}
        <button onClick={() => setEstimate(null)}>Close</button>
        <p>
          <time>{now.toLocaleTimeString()}</time> <output>{total}</output> {saved}
        </p>
      </div>
      {estimate && (
        <Sheet
          catalogue={catalogue}
          rates={rates}
          estimate={estimate}
          onChange={(next, { total }) => {
            setEstimate(next);
            setTotal(`Total ${total}`);
          }}
          onSave={({ number, revision }) => setSaved(`The page has ${number}, revision ${revision}.`)}
        />
      )}
    </>
  );
}

const root = createRoot(document.querySelector('#main')!);
root.render(<Desk {...await readDocuments()} />);
