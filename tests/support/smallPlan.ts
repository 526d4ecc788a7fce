/** A plan small enough to follow by hand; tests change what they are about. All figures invented. */
export function smallPlan() {
  return {
    catalog: {
      fasteners: [{ id: 'F1', thread: '3/8-24 UNF-3A', head: { form: 'hex', acrossFlats: '9/16 in' } }],
      sockets: [
        {
          id: 'S-9/16',
          drive: '3/8 in',
          opening: { form: 'hex6', size: '9/16 in' },
          length: '1.25 in',
          innerDepth: '0.6 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '75 lbf·ft',
          mass: '60 g',
          onHand: 1,
        },
        {
          id: 'S-9/16-12',
          drive: '3/8 in',
          opening: { form: 'hex12', size: '9/16 in' },
          length: '1.25 in',
          innerDepth: '0.6 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '75 lbf·ft',
          mass: '60 g',
          onHand: 1,
        },
      ],
      extensions: [
        {
          id: 'X-3',
          kind: 'rigid',
          driveIn: '3/8 in',
          driveOut: '3/8 in',
          length: '3 in',
          outsideDiameter: '0.66 in',
          ratedTorque: '75 lbf·ft',
          mass: '110 g',
          onHand: 1,
        },
        {
          id: 'X-6',
          kind: 'rigid',
          driveIn: '3/8 in',
          driveOut: '3/8 in',
          length: '6 in',
          outsideDiameter: '0.66 in',
          ratedTorque: '75 lbf·ft',
          mass: '200 g',
          onHand: 1,
        },
      ],
      drivers: [{ id: 'R-38', drive: '3/8 in', max: '75 lbf·ft', lever: '8 in', stepDeg: 5, mass: '300 g', onHand: 1 }],
      torqueTools: [
        {
          id: 'TT-2',
          drive: '3/8 in',
          min: '15 lbf·ft',
          max: '75 lbf·ft',
          increment: '0.5 lbf·ft',
          accuracyOfReading: 0.04,
          mass: '900 g',
          onHand: 1,
          loosens: false,
        },
      ],
      carryGear: [{ id: 'C-1', mass: '20 g', onHand: 4 }],
      bags: [{ id: 'B-1', mass: '500 g', massMax: '4 kg' }],
    },
    outings: [{ id: 'O1', roles: ['Lead', 'Second'], bags: ['B-1'] }],
    steps: [
      {
        id: 'loosen',
        outing: 'O1',
        role: 'Lead',
        action: 'loosen',
        fastener: 'F1',
        demand: '42 lbf·ft',
        access: { depth: '2 in', clearDiameter: '1 in' },
      },
      {
        id: 'tighten',
        outing: 'O1',
        role: 'Lead',
        action: 'tighten',
        fastener: 'F1',
        callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
        access: { depth: '2 in', clearDiameter: '1 in', swingDeg: 60 },
      },
      { id: 'cap', outing: 'O1', role: 'Second', action: 'use', gear: [{ id: 'C-1', quantity: 2 }] },
    ],
  };
}

export type SmallPlan = ReturnType<typeof smallPlan>;
