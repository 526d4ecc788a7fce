export interface InlineJoint {
  meanMm: number;
  leadMm: number;
  halfAngleDeg: number;
  nominalMm: number;
  areaMm2: number;
  threadFriction: number;
  bearingFriction: number;
  bearingMm: number;
  minNm: number;
  maxNm: number;
  scatter: number;
  relaxation: number;
  yieldMPa: number;
  proofMPa: number;
}

/** The same arithmetic as the engine's for a joint by friction, in one place and unchecked: what its checks and names cost. */
export function inlineJoint(j: InlineJoint) {
  const tanLead = j.leadMm / (Math.PI * j.meanMm);
  const f = j.threadFriction / Math.cos((j.halfAngleDeg * Math.PI) / 180);
  const threadMm = ((j.meanMm / 2) * (tanLead + f)) / (1 - f * tanLead);
  const bearingMm = (j.bearingFriction * j.bearingMm) / 2;
  const armMm = threadMm + bearingMm;
  const nominalNm = (j.minNm + j.maxNm) / 2;
  const nominal = (1000 * nominalNm) / armMm;
  const min = ((1 - j.scatter) * (1000 * j.minNm)) / armMm / (1 + j.relaxation);
  const max = ((1 + j.scatter) * (1000 * j.maxNm)) / armMm;
  const tension = nominal / j.areaMm2;
  const diameterMm = Math.sqrt((4 * j.areaMm2) / Math.PI);
  const shear = (16 * nominal * threadMm) / (Math.PI * diameterMm ** 3);
  const equivalent = Math.sqrt(tension ** 2 + 3 * shear ** 2);
  return {
    preloadN: { nominal, min, max },
    torqueNm: {
      seating: { nominal: nominalNm, min: j.minNm, max: j.maxNm },
      installation: { min: j.minNm, max: j.maxNm },
    },
    releaseTorqueNm: (nominal * (((j.meanMm / 2) * (f - tanLead)) / (1 + f * tanLead) + bearingMm)) / 1000,
    selfLocking: f > tanLead,
    efficiency: (nominal * j.leadMm) / (2 * Math.PI * 1000 * nominalNm),
    nutFactorEffective: (1000 * nominalNm) / (j.nominalMm * nominal),
    stressMPa: { tension, shear, equivalent },
    proofShare: { nominal: tension / j.proofMPa, max: (tension / j.proofMPa) * (max / nominal) },
    yieldShare: { nominal: equivalent / j.yieldMPa, max: (equivalent / j.yieldMPa) * (max / nominal) },
  };
}
