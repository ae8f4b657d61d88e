"""Values of the physics formulas by other roads: writes reference.csv, which tests/published/cross_checks.rs reads.

Every value is computed by a method or a library that the Rust code does not use: quadrature instead of a closed form,
an ODE solver instead of a solution, theta functions instead of image rows, a spectral Galerkin method or a
Bromwich integral instead of the series. Run it only to add rows; the result stays in the tree:

    python make_reference.py > reference.csv
"""

import platform

import CoolProp
import CoolProp.CoolProp as coolprop
import fluids
import numpy as np
import particula
import scipy
from numpy.polynomial import legendre
from scipy import integrate, linalg, optimize, special, stats

EPS0 = 8.8541878128e-12
CHARGE = 1.602176634e-19
BOLTZMANN = 1.380649e-23
ROWS = []


def row(quantity, arguments, expected, tolerance):
    """Notes one value; the tolerance is relative."""
    ROWS.append((quantity, arguments, float(expected), tolerance))


# Gas ----------------------------------------------------------------------------------------------------------------


def gas():
    """CoolProp's air and particula's slip. Tolerances: what the specification says the models differ by."""
    for temperature, tolerance in [(293.15, 2e-3), (423.15, 8e-3), (623.15, 2e-2)]:
        row("viscosity", [temperature], coolprop.PropsSI("V", "T", temperature, "P", 101325, "Air"), tolerance)
    molar_mass = coolprop.PropsSI("M", "Air")
    for temperature in (293.15, 423.15, 623.15):
        density = coolprop.PropsSI("D", "T", temperature, "P", 101325, "Air")
        row("density", [101325, temperature, molar_mass], density, 1e-3)
    for temperature, pressure in [(293.15, 101325), (423.15, 101325), (423.15, 95000)]:
        path = particula.gas.get_molecule_mean_free_path(temperature=temperature, pressure=pressure)
        # particula's kinetic formula lies 2.1 % below ISO 15900 at 293 K: a check of the formula's shape, not its digits.
        row("mean_free_path", [temperature, pressure], path, 3e-2)
    for diameter in np.logspace(-9, -4, 11):
        knudsen = 2 * 66e-9 / diameter
        row("slip", [diameter, 66e-9], particula.particles.get_cunningham_slip_correction(knudsen), 1e-12)
    for reynolds in (5e3, 2e4, 6e4):
        # u = 1 m/s, s = 0.15 m; the density sets Re on 4s. Colebrook's smooth pipe differs from Blasius by 3 % here.
        density = reynolds * 2.4e-5 / 0.6
        for darcy, tolerance in [
            (fluids.friction.Blasius(reynolds), 2e-3),
            (fluids.friction.friction_factor(Re=reynolds, eD=0), 2e-2),
        ]:
            row("friction_velocity", [1.0, 0.15, density, 2.4e-5], np.sqrt(darcy / 8), tolerance)


# Corona -------------------------------------------------------------------------------------------------------------


def theta_ratio(z, nome):
    """theta1(z, q)/theta4(z, q) of complex z by their series."""
    n = np.arange(40)
    theta1 = 2 * np.sum((-1.0) ** n * nome ** ((n + 0.5) ** 2) * np.sin((2 * n + 1) * z))
    m = np.arange(1, 40)
    theta4 = 1 + 2 * np.sum((-1.0) ** m * nome ** (m**2) * np.cos(2 * m * z))
    return theta1 / theta4


def line_potential(s, c, x, y):
    """-ln|theta1/theta4|: the conformal form of the potential of the wire row."""
    return -np.log(abs(theta_ratio(np.pi * (x + 1j * y) / c, np.exp(-4 * np.pi * s / c))))


def effective_radius(s, c):
    """d_eff by way of the complete elliptic integral: K(k')/K(k) = 4s/c, d_eff = c/(2 K sqrt(k))."""
    ratio = lambda m: special.ellipkm1(m) / special.ellipk(m) - 4 * s / c
    m = optimize.brentq(ratio, 1e-30, 1 - 1e-12, xtol=1e-60, rtol=1e-15)
    return c / (2 * special.ellipk(m) * m**0.25)


def corona():
    """Wire row, tube and planes."""
    for s, c in [(0.115, 0.15), (0.15, 0.25), (0.15, 0.5), (0.2, 0.15), (0.1, 0.4)]:
        row("effective_radius", [s, c, 1e-3], effective_radius(s, c), 1e-9)
        for x, y in [(0.03, 0.02), (0.5 * c, 0.0), (0.05, 0.09), (0.002, 0.0), (0.4 * c, -0.6 * s)]:
            row("line_potential", [s, c, 1e-3, x, y], line_potential(s, c, x, y), 1e-9)
            if abs(y) > 0:
                # Fourth-order differences of the conformal form.
                h = 1e-4
                stencil = [(-2, 1), (-1, -8), (1, 8), (2, -1)]
                along = -sum(w * line_potential(s, c, x + k * h, y) for k, w in stencil) / (12 * h)
                across = -sum(w * line_potential(s, c, x, y + k * h) for k, w in stencil) / (12 * h)
                row("line_field_x", [s, c, 1e-3, x, y], along, 1e-6)
                row("line_field_y", [s, c, 1e-3, x, y], across, 1e-6)
    for current in (1e-6, 1e-4, 1e-3, 1e-2):
        r0, big, b, onset = 1e-3, 0.1, 2e-4, 5.846050e6
        # Gauss's law d(rE)/dr = i/(2 pi eps0 b E), potential alongside.
        right = lambda r, state: [current * r / (2 * np.pi * EPS0 * b * state[0]), state[0] / r]
        flow = integrate.solve_ivp(right, (r0, big), [r0 * onset, 0], method="DOP853", rtol=1e-12, atol=1e-6)
        row("tube_voltage", [r0, big, b, onset, current], flow.y[1, -1], 1e-8)
        row("tube_field", [r0, big, b, onset, current, big], flow.y[0, -1] / big, 1e-8)
    for j, source, length, b in [(3e-4, 2e5, 0.1, 2e-4), (1e-3, 1e3, 0.15, 2.2e-4), (1e-8, 3e5, 0.15, 2e-4)]:
        field = lambda x: np.sqrt(source**2 + 2 * j * x / (EPS0 * b))
        row("planes_voltage", [j, source, length, b], integrate.quad(field, 0, length, epsrel=1e-12)[0], 1e-9)


# Charging -----------------------------------------------------------------------------------------------------------


def lawless_rate(nu, w):
    """Lawless 1996, written as the specification prints it."""
    f = 1.0 if w < 0.525 else (w + 0.475) ** -0.575
    if nu > 3 * w:
        return f * special.exprel(nu - 3 * w) ** -1
    if nu >= -3 * w:
        return (0.75 * w * (1 - nu / (3 * w)) ** 2 if w > 0 else 0.0) + f
    return -nu + f / special.exprel(-nu - 3 * w)


def charging():
    """All four models by a stiff ODE solver."""
    for w in (0.0, 0.3, 0.6, 3.0, 20.0, 150.0):
        for start, duration in [(0.0, 0.5), (0.0, 113.0), (-1.5 * 3 * w - 2, 4.0), (3 * w + 1, 1000.0)]:
            right = lambda t, y: [lawless_rate(y[0], w)]
            flow = integrate.solve_ivp(right, (0, duration), [start], method="LSODA", rtol=1e-12, atol=1e-12)
            row("lawless_number", [start, w, duration], flow.y[0, -1], 1e-8)
    temperature, path, b, field, j = 423.15, 104.693e-9, 2.2e-4, 3e5, 3e-4
    density = j / (CHARGE * b * field)
    speed = np.sqrt(8 * 8.31446261815324 * temperature / (np.pi * 0.032))
    tau = 4 * EPS0 * field / j
    for d in (0.05e-6, 0.3e-6, 2e-6, 20e-6):
        unit = 2 * np.pi * EPS0 * d * BOLTZMANN * temperature / CHARGE
        reach = 1 + 2 * path / d
        models = {
            "field": np.pi * EPS0 * (15 / 7) * field * d**2,
            "cochet": (reach**2 + 2 / reach * 4 / 7) * np.pi * EPS0 * d**2 * field,
        }
        for name, limit in models.items():
            scaled = lambda t, y: [(1 - y[0]) ** 2 / tau]
            flow = integrate.solve_ivp(scaled, (0, 0.3), [0.0], method="DOP853", rtol=1e-12, atol=1e-14)
            row(f"charge_{name}", [d, 5.0, temperature, path, b, field, density, 0.3], limit * flow.y[0, -1], 1e-9)
        # Kinetic theory: d(pi/4)d^2 v N0 exp(-q/unit) ions a second.
        rate = CHARGE * np.pi / 4 * d**2 * speed * density / unit
        right = lambda t, y: [rate * np.exp(-y[0])]
        flow = integrate.solve_ivp(right, (0, 0.3), [0.0], method="LSODA", rtol=1e-12, atol=1e-14)
        row("charge_white", [d, 5.0, temperature, path, b, field, density, 0.3], unit * flow.y[0, -1], 1e-8)
        w = 5 / 7 * field * d * CHARGE / (2 * BOLTZMANN * temperature)
        clock = CHARGE * density * b / EPS0
        right = lambda t, y: [lawless_rate(y[0], w)]
        flow = integrate.solve_ivp(right, (0, 0.3 * clock), [0.0], method="LSODA", rtol=1e-12, atol=1e-12)
        row("charge_lawless", [d, 5.0, temperature, path, b, field, density, 0.3], unit * flow.y[0, -1], 1e-8)


def drag():
    """Terminal velocity by Brent's method."""
    for stokes, d in [(0.05, 1e-6), (0.3, 1e-5), (1.2, 5e-5), (5.0, 2e-4)]:
        balance = lambda w: w * (1 + 0.15 * (0.85 * w * d / 2.4e-5) ** 0.687) - stokes
        row("terminal_drift", [stokes, d, 0.85, 2.4e-5], optimize.brentq(balance, 0, stokes, xtol=1e-16), 1e-12)


# Efficiency ---------------------------------------------------------------------------------------------------------


def eigenvalue_series(peclet, deutsch):
    """Leonard's series with its eigenvalues by Brent's method."""
    h, total = peclet / 2, 0.0
    for n in range(1, 400):
        low, high = (n - 1) * np.pi, n * np.pi
        beta = optimize.brentq(lambda x: x - low - 2 * np.arctan2(h, x), low, high, xtol=1e-15, rtol=1e-15)
        square = h * h + beta * beta
        total += (-1) ** (n - 1) * 8 * h * h * beta * beta / (square**2 * (square + 2 * h)) * np.exp(
            h - square * deutsch / (2 * h)
        )
    return total


def galerkin(modes, peclet, drift, velocity):
    """Matrices of M dc/dDe = A c in Legendre modes on 0..1: drift(eta) and velocity(eta) over their references."""
    nodes, weights = legendre.leggauss(3 * modes)
    eta, weights = 0.5 * (nodes + 1), 0.5 * weights
    scale = np.sqrt(2 * np.arange(modes) + 1)
    values = legendre.legvander(nodes, modes - 1) * scale
    slopes = np.stack(
        [legendre.legval(nodes, legendre.legder(np.eye(modes)[k])) * 2 * scale[k] for k in range(modes)], axis=1
    )
    mass = values.T @ (values * (weights * velocity(eta))[:, None])
    flux = drift(eta)[:, None] * values - slopes / peclet
    plate = np.outer(scale, scale) * drift(np.array([1.0]))[0]
    start = values.T @ weights
    leaving = mass @ start
    return mass, slopes.T @ (weights[:, None] * flux) - plate, start, leaving / (leaving @ start)


def flat(eta):
    """Plug flow."""
    return np.ones_like(eta)


def parabola(eta):
    """Poiseuille flow of mean 1."""
    return 1.5 * (1 - eta**2)


def spectral(modes, peclet, deutsch, drift=flat, velocity=flat):
    """Penetration by the spectral Galerkin method and the matrix exponential."""
    mass, transport, start, leaving = galerkin(modes, peclet, drift, velocity)
    return leaving @ linalg.expm(linalg.solve(mass, transport) * deutsch) @ start


def bromwich(peclet, deutsch):
    """The specification's Laplace transform inverted by adaptive quadrature along a vertical line in p itself."""
    h, shift = peclet / 2, 1.5 * np.sqrt(peclet)

    def integrand(frequency):
        p = shift + 1j * frequency
        r = np.sqrt(h * h + peclet * p)
        below = p**2 * ((h + r) ** 2 - (h - r) ** 2 * np.exp(-2 * r))
        # h - r = -Pe p/(h + r) keeps its digits at large Pe.
        return (2 * peclet * r * np.exp(p * deutsch - peclet * p / (h + r)) / below).real

    reach = 12 * np.sqrt(peclet)
    value = integrate.quad(integrand, 0, reach, epsabs=0, epsrel=1e-11, limit=2000)[0]
    return (1 - deutsch) + value / np.pi


def finite_mixing():
    """Three roads, each where it is good."""
    for peclet in (1e-3, 0.1, 1.0, 7.0, 29.0):
        for deutsch in (0.3, 1.0, 2.5, 5.0):
            if deutsch / peclet > 0.02:
                row("penetration", [peclet, deutsch], eigenvalue_series(peclet, deutsch), 1e-8)
    for peclet, modes in [(10.0, 80), (31.0, 120), (100.0, 160), (300.0, 160)]:
        for deutsch in (0.8, 1.0, 1.0 + 2.5 / np.sqrt(peclet)):
            # The matrix exponential leaves a noise of 1e-8 of P at Pe = 300.
            row("penetration", [peclet, deutsch], spectral(modes, peclet, deutsch), 1e-7)
    for peclet in (300.0, 1e3, 1e4, 1e5, 1e6, 1e7):
        for spread in (-1.5, 0.0, 1.5, 3.0):
            deutsch = 1 + spread / np.sqrt(peclet)
            row("penetration", [peclet, deutsch], bromwich(peclet, deutsch), 1e-8)


def marches():
    """Drift that changes across, drift that changes along, and a parabolic profile, by the spectral method."""
    # Arguments: Pe, De, slope a of w/w0 = 1 + a(2 eta - 1) across, slope b of w/w0 = 1 + b(2x/L - 1) along, parabola?
    for peclet, deutsch, across, profile in [
        (1.0, 2.0, 0.6, 0), (10.0, 2.0, 0.6, 0), (10.0, 1.5, -0.5, 0), (60.0, 1.0, 0.5, 0),
        (1.0, 2.0, 0.0, 1), (10.0, 2.0, 0.0, 1), (10.0, 1.5, 0.6, 1), (60.0, 1.0, 0.0, 1),
    ]:
        drift = lambda eta: 1 + across * (2 * eta - 1)
        expected = spectral(100, peclet, deutsch, drift, parabola if profile else flat)
        row("march", [peclet, deutsch, across, 0.0, profile], expected, 1e-3)
    for peclet, deutsch, along in [(2.0, 2.0, 0.8), (20.0, 1.2, -0.8)]:
        mass, diffusion, start, leaving = galerkin(40, peclet, lambda eta: 0 * eta, flat)
        drifting = galerkin(40, peclet, flat, flat)[1] - diffusion
        inverse, state, steps = linalg.inv(mass), start, 400
        for k in range(steps):
            # Exponential midpoint rule; its error falls with the square and is 1e-6 here.
            now = diffusion + (1 + along * (2 * (k + 0.5) / steps - 1)) * drifting
            state = linalg.expm(inverse @ now * deutsch / steps) @ state
        row("march", [peclet, deutsch, 0.0, along, 0], leaving @ state, 1e-3)


def spreads():
    """Size and velocity distributions by adaptive quadrature and scipy.stats."""
    for spread in (0.05, 0.15, 0.3):
        for deutsch in (0.5, 3.0, 6.0):
            weight = lambda v: v * np.exp(-0.5 * ((v - 1) / spread) ** 2)
            low, high = max(1e-9, 1 - 10 * spread), 1 + 10 * spread
            options = {"points": [1.0], "epsabs": 0, "epsrel": 1e-12, "limit": 500}
            upper = integrate.quad(lambda v: weight(v) * np.exp(-deutsch / v), low, high, **options)[0]
            row("velocity_spread", [deutsch, spread], upper / integrate.quad(weight, low, high, **options)[0], 1e-9)
    for median, deviation in [(16e-6, 3.0), (2e-6, 2.0), (21e-6, 4.0)]:
        dust = stats.lognorm(s=np.log(deviation), scale=median)
        for share in (1e-12, 1e-4, 0.1, 0.5, 0.9, 0.9999):
            row("log_normal_quantile", [median, deviation, share], dust.ppf(share), 1e-10)
        for diameter in (1e-7, 1e-6, 1e-5, 1e-4):
            row("log_normal_cumulative", [median, deviation, diameter], dust.cdf(diameter), 1e-10)
            row("log_normal_density", [median, deviation, diameter], dust.pdf(diameter) * diameter, 1e-10)
        for deutsch, power in [(2.0, 1.0), (10.0, 1.0), (6.0, 0.5), (30.0, 0.7)]:
            # Drift as a power of size, De at the median.
            share = lambda x: stats.norm.pdf(x) * np.exp(-deutsch * np.exp(power * x * np.log(deviation)))
            expected = integrate.quad(share, -12, 12, epsabs=0, epsrel=1e-12, limit=500)[0]
            row("log_normal_penetration", [median, deviation, deutsch, power], expected, 1e-5)
    points, largest = [(2e-6, 0.1), (5e-6, 0.3), (20e-6, 0.75)], 90e-6
    corners = np.log([points[0][0] / 4] + [d for d, _ in points] + [largest])
    finer = np.array([0.0] + [f for _, f in points] + [1.0])
    for deutsch in (1.0, 8.0):
        # Arguments: De at 10 um for drift in proportion to size; the table is the one above.
        escaped = lambda x: np.exp(-deutsch * np.exp(x) / 10e-6)
        expected = sum(
            (finer[k + 1] - finer[k]) / (corners[k + 1] - corners[k])
            * integrate.quad(escaped, corners[k], corners[k + 1], epsrel=1e-12)[0]
            for k in range(len(finer) - 1)
        )
        row("table_penetration", [deutsch], expected, 1e-5)
    for share in (0.02, 0.2, 0.5, 0.99):
        row("table_quantile", [share], np.exp(np.interp(share, finer, corners)), 1e-12)


def longitudinal():
    """Dispersed plug flow from the roots of its characteristic polynomial D1 m^2 - u m - w/s = 0."""
    for u, length, s, w, d1 in [(1.0, 8.0, 0.15, 0.08, 0.1), (1.5, 12.0, 0.2, 0.1, 1.0)]:
        decaying = min(np.roots([d1, -u, -w / s]))
        row("longitudinal", [u, length, s, w, d1], np.exp(decaying * length), 1e-10)


def main():
    """Prints the table."""
    for part in (gas, corona, charging, drag, finite_mixing, marches, spreads, longitudinal):
        part()
    print("# Written by make_reference.py; do not edit. Tolerances are relative.")
    print(f"# Python {platform.python_version()}, numpy {np.__version__}, scipy {scipy.__version__},")
    print(f"# fluids {fluids.__version__}, CoolProp {CoolProp.__version__}, particula {particula.__version__}")
    print("quantity,arguments,expected,tolerance")
    for quantity, arguments, expected, tolerance in ROWS:
        print(f"{quantity},{' '.join(repr(float(a)) for a in arguments)},{expected!r},{tolerance!r}")


if __name__ == "__main__":
    main()
