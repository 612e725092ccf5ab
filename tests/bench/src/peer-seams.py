"""General libraries at the work that our seam kernels do, timed one call at a time.

Called with a folder that holds the two windows and a border; reads the name of a kernel from each
line of its input and answers with a line of JSON. Only the kernel's own call is timed.
"""

import json
import sys
import time

import cv2
import numpy as np
import skimage
from skimage.exposure import match_histograms
from skimage.graph import MCP, route_through_array

folder, width, height, margin = sys.argv[1], *map(int, sys.argv[2:5])
inner = width - 2 * margin


def window(name):
    planes = np.fromfile(f"{folder}/{name}.f32", np.float32).reshape(3, height, width)
    return np.ascontiguousarray(planes.transpose(1, 2, 0))


ending, beginning = window("ending"), window("beginning")
costs = np.fromfile(f"{folder}/costs.f32", np.float32).reshape(height, inner).astype(float)
border = np.fromfile(f"{folder}/border.i32", np.int32)
down = [(1, -1), (1, 0), (1, 1)]
# Begins and ends anywhere: along a row of nothing.
free = np.pad(costs, ((1, 1), (0, 0)))
bytes_of = lambda picture: np.clip(np.rint(picture * 255), 0, 255).astype(np.uint8)
ending_bytes, beginning_bytes = bytes_of(ending), bytes_of(beginning)
# Right of the border, but for the frame that the solver holds.
mask = np.zeros((height, width), np.uint8)
mask[np.arange(width)[None, :] >= border[:, None]] = 255
mask[:, -2:] = mask[:2] = mask[-2:] = 0
left, top, wide, high = cv2.boundingRect(mask)
middle = (left + wide // 2, top + high // 2)
share = np.clip((np.arange(width) - margin + 0.5) / inner, 0, 1)[None, :, None].astype(np.float32)


def cut():
    paths = MCP(costs, offsets=down)
    sums, _ = paths.find_costs([(0, x) for x in range(inner)])
    return paths.traceback((height - 1, int(np.argmin(sums[-1]))))


def route():
    return route_through_array(free, (0, 0), (height + 1, 0), fully_connected=True, geometric=False)


def clone():
    return cv2.seamlessClone(beginning_bytes, ending_bytes, mask, middle, cv2.NORMAL_CLONE)


def fade():
    return match_histograms(ending * (1 - share) + beginning * share, ending, channel_axis=-1)


def say(result, name):
    if name == "cut":
        return {"cost": float(sum(costs[place] for place in result))}
    if name == "route":
        return {"cost": float(result[1])}
    picture = result.astype(np.float32) / (255 if result.dtype == np.uint8 else 1)
    picture.transpose(2, 0, 1).tofile(f"{folder}/{name}.f32")
    return {}


kernels = {"cut": cut, "route": route, "clone": clone, "fade": fade}
versions = {"opencv": cv2.__version__, "skimage": skimage.__version__, "numpy": np.__version__}
print(json.dumps(versions), flush=True)
for line in sys.stdin:
    name = line.strip()
    clock, spent = time.perf_counter(), time.process_time()
    result = kernels[name]()
    clock, spent = time.perf_counter() - clock, time.process_time() - spent
    print(json.dumps({"ms": 1000 * clock, "cpu": 1000 * spent, **say(result, name)}), flush=True)
