"""Rules on single parts beside the walls: buttresses, bond beams, floor ties, shoes and sockets."""
