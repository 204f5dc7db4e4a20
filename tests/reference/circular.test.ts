import { describe, expect, test } from "vitest";
import { bearing, circularDeviation, rayleighTest, vTest } from "./circularStatistics.js";
import { near, printed } from "./published.js";

const radians = (degrees: readonly number[]): number[] => degrees.map((each) => (each * Math.PI) / 180);
const direction = (angles: readonly number[], weights?: readonly number[]): number => {
  const found = bearing(angles, weights).direction;
  expect(typeof found).toBe("number");
  return found as number;
};

describe("circular statistics", () => {
  // Jammalamadaka & SenGupta 2001, p. 23, through R CircStats, as read in astropy's test_circstats; computed again.
  test("51 67 40 109 31 358 degrees: mean 0.8487044 rad, R 0.8364364725, variance 0.1635635", () => {
    const angles = radians([51, 67, 40, 109, 31, 358]);
    near(direction(angles), 0.8487044, printed(7));
    near(bearing(angles).resultant, 0.8364364725, printed(10));
    near(1 - bearing(angles).resultant, 0.1635635, printed(7));
  });

  // The same book, p. 6 and 125, through the same test; computed again.
  test("0 3.6 36 72 108 169.2 324 degrees with weights 12 1 6 1 2 1 1: R 0.766282", () => {
    near(bearing(radians([0, 3.6, 36, 72, 108, 169.2, 324]), [12, 1, 6, 1, 2, 1, 1]).resultant, 0.766282, printed(6));
  });

  // astropy's test_circstats (values from R CircStats), read there; computed again.
  test("ten angles with R 0.774055: Rayleigh z 5.991612, p 0.0009917748", () => {
    const angles = [
      3.3192729, 3.0628233, 2.7219562, 3.8019564, 2.7290561, 0.8840816, 3.7646373, 2.9782072, 3.3060406, 2.9012014,
    ];
    near(bearing(angles).resultant, 0.774055, printed(6));
    near(rayleighTest(angles).statistic, 5.991612, printed(6));
    // The angles are printed to 7 decimals, which moves z by up to 2 n R printed(7) and p by p times that.
    near(rayleighTest(angles).p, 0.0009917748, 0.000992 * 2 * 10 * 0.774 * printed(7) + printed(10));
  });

  // The same test; the tabled p carries Greenwood and Durand's correction for few angles.
  test("ten angles against direction 0: V -0.492415, u -2.202148, p 0.987142", () => {
    const angles = [1.316075, 4.439193, 3.096231, 4.807068, 2.986021, 1.756324, 3.046718, 3.29915, 3.360557, 4.842499];
    const towards = vTest(angles, 0);
    near(towards.statistic / Math.sqrt(20), -0.492415, printed(6));
    near(towards.statistic, -2.202148, printed(6));
    near(towards.p, 0.987142, printed(6));
  });

  // The same test: von Mises mu and kappa. That kappa is the approximation of Best & Fisher 1981 for 0.53 <= R < 0.85 (formula from memory),
  // -0.4 + 1.39 R + 0.43 / (1 - R), not the exact maximum, where I1(kappa) / I0(kappa) = R.
  test("ten angles with von Mises mu 3.006514 and kappa 1.474132: our mean direction, and our R gives that kappa", () => {
    const angles = [
      3.3699057, 4.041163, 0.5014477, 2.6223103, 3.7336524, 1.8136389, 4.1566039, 2.7806317, 2.4672173, 2.8493644,
    ];
    near((direction(angles) + 2 * Math.PI) % (2 * Math.PI), 3.006514, printed(6));
    const { resultant } = bearing(angles);
    near(-0.4 + 1.39 * resultant + 0.43 / (1 - resultant), 1.474132, printed(6));
  });

  // The trees example attributed to Zar (data from memory; numbers computed).
  test("45 55 81 96 110 117 132 154 degrees: mean 98.98775, R 0.8252177, z 5.447875, p 0.0016442, V test towards 90 degrees", () => {
    const angles = radians([45, 55, 81, 96, 110, 117, 132, 154]);
    const { resultant } = bearing(angles);
    near((direction(angles) * 180) / Math.PI, 98.98775, printed(5));
    near(resultant, 0.8252177, printed(7));
    near(rayleighTest(angles).statistic, 5.447875, printed(6));
    near(rayleighTest(angles).p, 0.0016442, printed(7));
    near((Math.sqrt(2 * (1 - resultant)) * 180) / Math.PI, 33.8755, printed(4));
    near(((circularDeviation(resultant) as number) * 180) / Math.PI, 35.5149, printed(4));
    near(vTest(angles, Math.PI / 2).statistic / 4, 0.8150855, printed(7));
    near(vTest(angles, Math.PI / 2).statistic, 3.260342, printed(6));
  });

  // R = exp(-(2 pi s / P)^2 / 2) of a wrapped normal distribution (standard; values computed).
  test.each([
    [10, 0.992135406],
    [20, 0.968910791],
    [25, 0.951849807],
    [50, 0.820868717],
  ])(
    "deviation of %i ms in a period of 500 ms gives R %f, and the circular deviation gives the deviation back",
    (deviation, resultant) => {
      const found = ((circularDeviation(resultant) as number) * 500) / (2 * Math.PI);
      // d(deviation) = dR / (R deviation).
      near(found, deviation, ((500 / (2 * Math.PI)) ** 2 * printed(9)) / (resultant * deviation) + 1e-9);
    },
  );

  /** So many angles with exactly this R: half of them either side of 0, an odd one on it. */
  const anglesWith = (n: number, resultant: number): number[] => {
    const odd = n % 2;
    const side = Math.acos((resultant * n - odd) / (n - odd));
    return Array.from({ length: n }, (_, i) => (i < odd ? 0 : i % 2 === 0 ? side : -side));
  };

  // Critical values of R: Mardia 1972, printed in Davis, Statistics and Data Analysis in Geology, table A.10, as read there.
  test.each([
    [8, 0.535, 0.602, 0.66, 0.725],
    [10, 0.478, 0.54, 0.594, 0.655],
    [20, 0.339, 0.385, 0.425, 0.472],
  ])("%i angles at the critical R have p .10, .05, .025, .01", (n, ...critical) => {
    critical.forEach((resultant, column) => {
      const level = [0.1, 0.05, 0.025, 0.01][column]!;
      const angles = anglesWith(n, resultant);
      near(bearing(angles).resultant, resultant, 1e-12);
      // The table rounds R by up to 0.0005, which moves p by 2 n R p of that; the series leaves out terms of order z^6 e^-z / n^3, below 0.001.
      near(rayleighTest(angles).p, level, 2 * n * resultant * level * 0.0005 + 0.001);
    });
  });

  // The row of the same table for 5 angles (.677 .754 .816 .879) is itself off: 4 million simulated sets exceed those R in these shares, to
  // 0.0002. The series is off by up to 0.002 with so few angles (measured here), which its description says.
  test.each([
    [0.677, 0.0968],
    [0.754, 0.0519],
    [0.816, 0.0275],
    [0.879, 0.0113],
  ])("5 angles with R %f have p %f within 0.002", (resultant, p) => {
    near(rayleighTest(anglesWith(5, resultant)).p, p, 0.002);
  });
});
