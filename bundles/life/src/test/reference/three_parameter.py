"""Three-parameter Weibull of the rats in M. C. Pike, Biometrics 22 (1966) 142-161 (data from memory).

Usage: python3 three_parameter.py (mpmath 1.3.0). Prints location, scale, shape, log likelihood and the
standard errors of location, ln scale and ln shape at the local maximum, 30 digits of arithmetic.
"""
import mpmath as m

m.mp.dps = 30
failed = [143, 164, 188, 188, 190, 192, 206, 209, 213, 216, 220, 227, 230, 234, 246, 265, 304]
removed = [216, 244]


def log_likelihood(g, a, b):
    scale, shape = m.e**a, m.e**b
    l = -sum(((t - g) / scale) ** shape for t in failed + removed)
    return l + sum(m.log(shape / scale) + (shape - 1) * m.log((t - g) / scale) for t in failed)


def d(i, *p):
    n = [0, 0, 0]
    n[i] = 1
    return m.diff(log_likelihood, p, tuple(n))


x = m.findroot(lambda g, a, b: [d(i, g, a, b) for i in range(3)], (m.mpf(122), m.log(108), m.log(m.mpf("2.7"))))
h = m.matrix(3, 3)
for i in range(3):
    for j in range(3):
        n = [0, 0, 0]
        n[i] += 1
        n[j] += 1
        h[i, j] = -m.diff(log_likelihood, tuple(x), tuple(n))
v = h**-1
print(*(m.nstr(q, 17) for q in (x[0], m.e ** x[1], m.e ** x[2], log_likelihood(*x))))
print(*(m.nstr(m.sqrt(v[i, i]), 17) for i in range(3)))
