"""Products of arrays of vectors in space, (..., 3); numpy's own cross product spends ten times its sums on moving axes about."""

from __future__ import annotations

import numpy


def dot(a: numpy.ndarray, b: numpy.ndarray) -> numpy.ndarray:
    return numpy.sum(a * b, axis=-1)


def cross(a: numpy.ndarray, b: numpy.ndarray) -> numpy.ndarray:
    """The cross product, right-handed, of shapes that fit one another.

    >>> cross(numpy.array([1.0, 0.0, 0.0]), numpy.array([[0.0, 1.0, 0.0], [0.0, 0.0, 1.0]]))
    array([[ 0.,  0.,  1.],
           [ 0., -1.,  0.]])
    """
    a, b = numpy.asarray(a), numpy.asarray(b)
    found = numpy.empty(numpy.broadcast_shapes(a.shape, b.shape))
    found[..., 0] = a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1]
    found[..., 1] = a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2]
    found[..., 2] = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return found


def unit(a: numpy.ndarray) -> numpy.ndarray:
    """The directions of vectors, of length 1."""
    return a / numpy.linalg.norm(a, axis=-1, keepdims=True)
