DISHES = {}
