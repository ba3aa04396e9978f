/**
 * Thermal diffusivity, m²/s, of crumb or dough with gas for a share `gasShare` of its volume: exp(0.01e − 15.25), e in
 * per cent (Zanoni, Peri & Gianotti 1995, J Food Eng 26:497, abstract). Throws RangeError outside 0–0.9.
 */
export function diffusivityM2PerS(gasShare: number): number {
  if (!(gasShare >= 0 && gasShare <= 0.9)) throw new RangeError(`a crumb has 0 to 0.9 of gas, not ${gasShare}`)
  return Math.exp(gasShare - 15.25)
}

/**
 * How long, hours, a ball of dough takes to even out inside: R²/(π²·a), the slowest mode of a sphere whose surface is held
 * (J. Crank, The Mathematics of Diffusion, section 6.3, from memory, not checked against the page). Until then a probe at
 * the surface and one in the middle tell different temperatures; well below the dough's time constant, one temperature
 * stands for all of it. Throws RangeError for no mass or a gas share outside 0–0.9.
 */
export function evensOutHours({ massG, gasShare }: { massG: number; gasShare: number }): number {
  if (!(massG > 0)) throw new RangeError(`a dough weighs more than ${massG} g`)
  const volumeM3 = massG / (gasFreeGPerMl * (1 - gasShare)) / 1e6
  const radiusM = ((3 * volumeM3) / (4 * Math.PI)) ** (1 / 3)
  return radiusM ** 2 / (Math.PI ** 2 * diffusivityM2PerS(gasShare)) / 3600
}
// Campbell et al. 1993, Cereal Chem 70:517 measured it; the figure is from memory, not checked against the page
const gasFreeGPerMl = 1.25
