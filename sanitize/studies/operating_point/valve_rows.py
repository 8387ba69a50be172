"""Hand valves: open, at an angle or a lift, or by a measured drop."""

import numpy as np
